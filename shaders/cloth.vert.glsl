in vec3 position;
in vec3 a_normal;
in vec2 a_rest;
in vec2 a_hollow;
in float a_onScale;
in ivec2 a_cell;
in uint a_look;
in uvec4 a_looks;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_colour;
out vec2 v_rest;
out vec2 v_hollow;
// Place on the scale of colours.
out float v_onScale;
out float v_marked;
flat out ivec2 v_cell;
// A plain cell's four loops travel with it, so that its pixels need not look anything up.
flat out uvec4 v_looks;
#if IS_CUT
out float v_side;
#endif
invariant gl_Position;

void main() {
  vec4 positionView = modelViewMatrix * vec4(position, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * a_normal;
  v_colour = lookColour(a_look);
  v_rest = a_rest;
  v_hollow = a_hollow;
  v_onScale = a_onScale;
  v_marked = (lookBits(a_look) & LOOK_MARKED) != 0 ? 1.0 : 0.0;
  v_cell = a_cell;
  v_looks = a_looks;
#if IS_CUT
  v_side = position.y;
#endif
  gl_Position = projectionMatrix * positionView;
}
