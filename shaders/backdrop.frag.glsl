in vec2 v_screen;
in vec3 v_ray;
// The eye in the space of the shadow's map.
uniform vec3 u_eye;
uniform vec3 u_top;
uniform vec3 u_bottom;
out vec4 fragColour;

void main() {
  vec2 p = (v_screen - vec2(0.46, 0.58)) * vec2(1.0, 1.15);
  vec3 colour = toSrgb(mix(u_top, u_bottom, smoothstep(0.05, 0.85, length(p))));
  // The shadow of a sock on table or floor, where one looks at it from over its plane.
  float reach = -u_eye.z / v_ray.z;
  if (u_strength > 0.0 && reach > 0.0) colour = mix(colour, toSrgb(u_colour), shadowAt(u_eye.xy + reach * v_ray.xy + 0.5));
  // Less than one step of 8 bits, so that the slow gradient shows no bands.
  float grain = fract(sin(dot(gl_FragCoord.xy, vec2(12.9898, 78.233))) * 43758.5453) - 0.5;
  fragColour = vec4(colour + grain / 255.0, 1.0);
}
