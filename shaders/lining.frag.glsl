in vec3 v_positionView;
in vec3 v_normalView;
in vec3 v_colour;
in float v_onScale;
#if IS_CUT
in float v_side;
uniform float u_cut;
#endif

uniform float u_dim;
uniform vec3 u_paper;

out vec4 fragColour;

// What is seen through the gaps of yarn: wool in the dark.
void main() {
#if IS_CUT
  if (v_side < u_cut) discard;
#endif
  vec3 normal = normalize(v_normalView), toEye = normalize(-v_positionView), colour;
  if (u_mapped > 0.5) colour = lightMap(scaleColour(v_onScale), normal, toEye, -0.3, 0.5);
  else colour = lightWool(v_colour * 0.72, normal, toEye, 0.36, 0.45);
  fragColour = vec4(toSrgb(mix(colour, u_paper, u_dim)), 1.0);
}
