precision highp float;
precision highp int;
precision highp sampler2D;

// Linear light to sRGB (IEC 61966-2-1) within half a step of 8 bits: a known fit by square roots
// (from memory), cheaper than a power where there is no graphics card.
vec3 toSrgb(vec3 c) {
  c = clamp(c, 0.0, 1.0);
  vec3 a = sqrt(c), b = sqrt(a), d = sqrt(b);
  return max(0.662002687 * a + 0.684122060 * b - 0.323583601 * d - 0.0225411470 * c, 0.0);
}
