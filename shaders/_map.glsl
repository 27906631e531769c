// Colours that stand for numbers (colour-scale.ts), as square roots of linear light, between
// which they mix much as the legend's do.
uniform vec3 u_scale[SCALE_STEPS];
// 1 where the cloth shows numbers, 0 where it shows its yarn.
uniform float u_mapped;

vec3 scaleColour(float place) {
  float p = clamp(place, 0.0, float(SCALE_STEPS - 1));
  int step = min(int(p), SCALE_STEPS - 2);
  vec3 root = mix(u_scale[step], u_scale[step + 1], p - float(step));
  return root * root;
}

// Light that leaves a colour what the legend says: it falls from where the eye is, a little from
// the key's side, and only darkens, by the cloth's turning away and between its stitches.
vec3 lightMap(vec3 colour, vec3 normal, vec3 toEye, float open, float shade) {
  float facing = clamp(dot(normal, normalize(toEye + 0.45 * KEY_DIRECTION)), 0.0, 1.0);
  float form = 1.0 - 0.55 * (1.0 - facing) * (1.0 - facing);
  float stitch = clamp(0.62 + 0.5 * open, 0.0, 1.0);
  return colour * (form * stitch * mix(1.0, shade, 0.5));
}

// The loop under the pointer: darker on pale colours, paler on dark ones.
vec3 litMap(vec3 colour, float lit) {
  float light = dot(colour, vec3(0.2126, 0.7152, 0.0722));
  return mix(colour, light > 0.25 ? colour * 0.2 : 0.35 * colour + 0.65, 0.7 * lit);
}
