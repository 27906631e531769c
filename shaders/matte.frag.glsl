in vec3 v_positionView;
in vec3 v_normalView;
in float v_along;
flat in int v_tone;

uniform vec3 u_tones[TONES];
// Middle along x, half the width that is solid, and the width over which the rest fades; 0 for no fading.
uniform vec3 u_span;
uniform float u_dim;
uniform vec3 u_paper;

out vec4 fragColour;

void main() {
  vec3 normal = normalize(gl_FrontFacing ? v_normalView : -v_normalView);
  float solid = u_span.z > 0.0 ? 1.0 - smoothstep(u_span.y, u_span.y + u_span.z, abs(v_along - u_span.x)) : 1.0;
  vec3 colour = lightWool(u_tones[v_tone], normal, normalize(-v_positionView), 1.0, 1.0);
  fragColour = vec4(toSrgb(mix(colour, u_paper, u_dim)) * solid, solid);
}
