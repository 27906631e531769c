in vec2 v_map;
out vec4 fragColour;

void main() {
  float alpha = shadowAt(v_map);
  fragColour = vec4(toSrgb(u_colour) * alpha, alpha);
}
