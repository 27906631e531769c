in vec3 v_positionView;
in vec3 v_normalView;
in vec2 v_along;
in vec3 v_colour;
in float v_onScale;
in float v_marked;

uniform float u_dim;
uniform vec3 u_paper;
uniform float u_glass;
#if IS_CUT
in float v_side;
uniform float u_cut;
#endif

out vec4 fragColour;

void main() {
#if IS_CUT
  if (v_side < u_cut) discard;
#endif
  vec3 normal = normalize(v_normalView);
  // Ends dive between the stitches and lie in their shade.
  float open = 1.0 - 0.8 * smoothstep(0.15, 0.5, abs(v_along.x));
  vec2 turn = fract(vec2(4.3, 17.0) * v_along.x + vec2(2.0, 9.0) * v_along.y);
  turn *= 1.0 - turn;
  vec3 albedo = v_colour * (0.9 + 0.5 * turn.x + 0.28 * turn.y);
  vec3 toEye = normalize(-v_positionView);
  vec3 colour = u_mapped > 0.5 ? lightMap(scaleColour(v_onScale), normal, toEye, open, open) : lightWool(albedo, normal, toEye, open, open);
  colour = mix(colour, v_colour * (0.62 + 0.5 * open), 0.9 * v_marked);
  float alpha = clothAlpha(u_glass, normal, toEye);
  fragColour = vec4(toSrgb(mix(colour, u_paper, u_dim)) * alpha, alpha);
}
