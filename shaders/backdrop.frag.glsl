in vec2 v_screen;
uniform vec3 u_top;
uniform vec3 u_bottom;
out vec4 fragColour;

void main() {
  vec2 p = (v_screen - vec2(0.46, 0.58)) * vec2(1.0, 1.15);
  vec3 colour = toSrgb(mix(u_top, u_bottom, smoothstep(0.05, 0.85, length(p))));
  // Less than one step of 8 bits, so that the slow gradient shows no bands.
  float grain = fract(sin(dot(gl_FragCoord.xy, vec2(12.9898, 78.233))) * 43758.5453) - 0.5;
  fragColour = vec4(colour + grain / 255.0, 1.0);
}
