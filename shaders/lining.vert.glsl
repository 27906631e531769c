in vec3 position;
in vec3 a_normal;
in uint a_look;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;
uniform float u_everted;
// How far behind the cloth's middle it lies, mm.
uniform float u_sink;

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_colour;
#if IS_CUT
out float v_side;
#endif

void main() {
  vec3 outwards = a_normal * (1.0 - 2.0 * u_everted);
  vec4 positionView = modelViewMatrix * vec4(position + u_sink * outwards, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * -outwards;
  v_colour = lookColour(a_look);
#if IS_CUT
  v_side = position.y;
#endif
  gl_Position = projectionMatrix * positionView;
}
