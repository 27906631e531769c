// Wool under a key light, a sky-to-ground fill and a rim, all in view space: the lights stand
// with the person who looks.
uniform vec3 u_key;
uniform vec3 u_sky;
uniform vec3 u_ground;
uniform vec3 u_rim;

// How much of cloth like glass is cloth where it is seen straight on; towards its rims it grows solid. 1 for any other.
float clothAlpha(float glass, vec3 normal, vec3 toEye) {
  float edge = 1.0 - abs(dot(normal, toEye));
  return mix(glass, 1.0, edge * edge);
}

const vec3 KEY_DIRECTION = normalize(vec3(-0.44, 0.58, 0.69));
const vec3 RIM_DIRECTION = normalize(vec3(0.75, 0.35, -0.55));

// Fibres scatter light past the terminator: the half-Lambert-like wrap keeps a form soft. `edge` is how far the cloth turns away, 0..1.
vec3 lightFibres(vec3 albedo, vec3 normal, float edge, float open, float shade) {
  float wrap = 0.35;
  float key = max(dot(normal, KEY_DIRECTION) + wrap, 0.0) / (1.0 + wrap);
  vec3 fill = mix(u_ground, u_sky, 0.5 + 0.5 * normal.y) * open;
  float fuzz = edge * edge * edge;
  vec3 rim = u_rim * (fuzz * (0.35 + max(dot(normal, RIM_DIRECTION), 0.0)));
  vec3 scattered = mix(albedo, sqrt(albedo), 0.35);
  return albedo * (u_key * key * shade * mix(open, 1.0, 0.55) + fill) * 0.72 + scattered * rim * open;
}

vec3 lightWool(vec3 albedo, vec3 normal, vec3 toEye, float open, float shade) {
  return lightFibres(albedo, normal, 1.0 - clamp(dot(normal, toEye), 0.0, 1.0), open, shade);
}
