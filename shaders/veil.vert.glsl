in vec3 position;
in vec3 a_normal;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;
#if IS_OUTLINE
uniform vec2 u_viewport;
// Pixels by which the outline stands out.
uniform float u_width;
#endif

out vec3 v_positionView;
out vec3 v_normalView;
invariant gl_Position;

void main() {
  vec4 positionView = modelViewMatrix * vec4(position, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * a_normal;
  gl_Position = projectionMatrix * positionView;
#if IS_OUTLINE
  vec2 outwards = v_normalView.xy;
  gl_Position.xy += outwards / max(length(outwards), 1e-4) * (2.0 * u_width * gl_Position.w) / u_viewport;
#endif
}
