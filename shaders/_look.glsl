// What is drawn of a loop, packed into four bytes: its yarn's colour as square roots, so that dark
// yarns keep their steps, and above them the LOOK bits (loop-looks.ts).
const int LOOK_PURL = 1;
const int LOOK_OVER = 2;
const int LOOK_UNDER = 4;
const int LOOK_LIT = 8;
const int LOOK_MARKED = 16;

const int CELL_RIB = 256;
const int CELL_HEM = 512;
const int CELL_REGULAR = 1024;

vec3 lookColour(uint look) {
  vec3 root = vec3(look & 255u, (look >> 8) & 255u, (look >> 16) & 255u) / 255.0;
  return root * root;
}

int lookBits(uint look) { return int(look >> 24); }
