uniform sampler2D u_darkness;
uniform vec3 u_colour;
uniform float u_strength;

// How much of the ground a place of the map is in shadow; nothing beyond its edges.
float shadowAt(vec2 map) {
  float edge = smoothstep(0.5, 0.42, max(abs(map.x - 0.5), abs(map.y - 0.5)));
  return texture(u_darkness, map).r * u_strength * edge;
}
