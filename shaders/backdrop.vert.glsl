in vec3 position;
out vec2 v_screen;

void main() {
  v_screen = position.xy * 0.5 + 0.5;
  gl_Position = vec4(position.xy, 1.0, 1.0);
}
