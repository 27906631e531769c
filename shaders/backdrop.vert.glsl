in vec3 position;
// From a place of the picture to the direction of looking there, in the space of the shadow's map, whose plane is z = 0.
uniform mat3 u_rays;
out vec2 v_screen;
out vec3 v_ray;

void main() {
  v_screen = position.xy * 0.5 + 0.5;
  v_ray = u_rays * vec3(position.xy, 1.0);
  gl_Position = vec4(position.xy, 1.0, 1.0);
}
