in vec3 position;
in vec3 a_normal;
#if IS_NEEDLE
// Where the needle's loop hangs; then its bed's side (front -1), how far it is pushed forward, and its tone.
in vec3 a_place;
in vec3 a_state;
uniform float u_size;
#else
in float a_tone;
#endif

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;

out vec3 v_positionView;
out vec3 v_normalView;
out float v_along;
flat out int v_tone;

#if IS_NEEDLE
// A needle's own axes: along the bed, up from it, forward along the needle; a bed slopes by 45 degrees.
vec3 onBed(vec3 own) {
  float side = a_state.x;
  vec2 across = 0.70710678 * vec2(own.z - own.y, own.z + own.y);
  return vec3(-side * own.x, -side * across.x, across.y);
}
#endif

void main() {
#if IS_NEEDLE
  vec3 place = a_place + onBed(u_size * position + vec3(0.0, 0.0, a_state.y));
  vec3 normal = onBed(a_normal);
  v_tone = int(a_state.z);
#else
  vec3 place = position, normal = a_normal;
  v_tone = int(a_tone);
#endif
  vec4 positionView = modelViewMatrix * vec4(place, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * normal;
  v_along = place.x;
  gl_Position = projectionMatrix * positionView;
}
