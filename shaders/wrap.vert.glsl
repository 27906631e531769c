in vec3 position;
in vec3 a_normal;
in vec2 a_along;
in vec3 a_colour;
in float a_onScale;
in float a_marked;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;

out vec3 v_positionView;
out vec3 v_normalView;
out vec2 v_along;
out vec3 v_colour;
out float v_onScale;
out float v_marked;
#if IS_CUT
out float v_side;
#endif
invariant gl_Position;

void main() {
  vec4 positionView = modelViewMatrix * vec4(position, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * a_normal;
  v_along = a_along;
  v_colour = a_colour;
  v_onScale = a_onScale;
  v_marked = a_marked;
#if IS_CUT
  v_side = position.y;
#endif
  gl_Position = projectionMatrix * positionView;
}
