in vec2 v_place;
flat in float v_pixels;
flat in vec2 v_range;
flat in float v_size;

uniform float u_width;
uniform float u_inset;
uniform float u_dashMm;
uniform vec3 u_colour;

out vec4 fragColour;

void main() {
  float radius = 0.5 * u_width * v_size - u_inset;
  float beyond = max(max(-v_place.x, v_place.x - v_pixels), 0.0);
  float cover = 1.0 - smoothstep(radius - 0.6, radius + 0.4, length(vec2(beyond, v_place.y)));
  if (cover <= 0.0) discard;
  if (u_dashMm > 0.0 && v_size == 1.0) {
    float along = mix(v_range.x, v_range.y, clamp(v_place.x / max(v_pixels, 1e-3), 0.0, 1.0));
    if (fract(along / u_dashMm) > 0.55) discard;
  }
  fragColour = vec4(toSrgb(u_colour), cover);
}
