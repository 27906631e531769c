in vec3 v_positionView;
in vec3 v_normalView;

uniform vec3 u_veil;
uniform float u_opacity;

out vec4 fragColour;

// A thin veil, thicker towards its rims, a little darker where it turns away.
void main() {
#if IS_OUTLINE
  float alpha = 1.0, form = 1.0;
#else
  float facing = abs(dot(normalize(v_normalView), normalize(-v_positionView)));
  float edge = 1.0 - facing, form = 0.75 + 0.25 * facing;
  float alpha = mix(u_opacity, 0.8, edge * edge * edge);
#endif
  fragColour = vec4(toSrgb(u_veil * form) * alpha, alpha);
}
