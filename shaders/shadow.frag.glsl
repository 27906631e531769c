in vec2 v_map;
uniform sampler2D u_darkness;
uniform vec3 u_colour;
uniform float u_strength;
out vec4 fragColour;

void main() {
  float edge = smoothstep(0.5, 0.42, max(abs(v_map.x - 0.5), abs(v_map.y - 0.5)));
  float alpha = texture(u_darkness, v_map).r * u_strength * edge;
  fragColour = vec4(toSrgb(u_colour) * alpha, alpha);
}
