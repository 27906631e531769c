in vec3 position;
in vec3 a_normal;
in float a_onScale;
in ivec2 a_cell;
in uint a_look;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;
uniform float u_everted;
// How far behind the cloth's middle it lies, mm, seen from inside and from outside, and how far beyond it where it turns away from the eye (lining.ts).
uniform vec3 u_sink;

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_colour;
// Place on the scale of colours.
out float v_onScale;
#if IS_CUT
out float v_side;
#endif

void main() {
  vec3 outwardsView = normalMatrix * a_normal * (1.0 - 2.0 * u_everted), positionView = (modelViewMatrix * vec4(position, 1.0)).xyz, toEye = -normalize(positionView);
  float facing = dot(outwardsView, toEye);
  bool isOutside = facing > 0.0;
  // Straight away from the eye, so that it is seen no farther out than the cloth.
  v_positionView = positionView - (isOutside ? u_sink.y : u_sink.x) * toEye + u_sink.z * (1.0 - abs(facing)) * outwardsView;
  v_normalView = isOutside ? outwardsView : -outwardsView;
  v_colour = lookColour(a_look);
  v_onScale = a_onScale;
#if IS_CUT
  v_side = position.y;
#endif
  // The yarn of an edge is all there is of it.
  gl_Position = (a_cell.y & CELL_HEM) != 0 ? vec4(0.0, 0.0, 2.0, 1.0) : projectionMatrix * vec4(v_positionView, 1.0);
}
