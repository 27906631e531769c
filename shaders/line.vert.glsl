in vec3 position;
in vec3 a_from;
in vec3 a_to;
in vec3 a_span;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform vec2 u_viewport;
uniform float u_width;
uniform float u_near;
uniform float u_lift;

out vec2 v_place;
flat out float v_pixels;
flat out vec2 v_range;
flat out float v_size;

// Towards the eye, so that the line lies on the cloth and not in it.
vec3 lifted(vec3 p) {
  vec3 view = (modelViewMatrix * vec4(p, 1.0)).xyz;
  return view + normalize(-view) * u_lift;
}

void main() {
  vec3 a = lifted(a_from), b = lifted(a_to);
  if (a.z > -u_near && b.z < -u_near) a = mix(b, a, (-u_near - b.z) / (a.z - b.z));
  if (b.z > -u_near && a.z < -u_near) b = mix(a, b, (-u_near - a.z) / (b.z - a.z));
  vec4 clipA = projectionMatrix * vec4(a, 1.0), clipB = projectionMatrix * vec4(b, 1.0);
  vec2 pixelA = clipA.xy / clipA.w * 0.5 * u_viewport, pixelB = clipB.xy / clipB.w * 0.5 * u_viewport;
  vec2 along = pixelB - pixelA;
  float size = length(along);
  vec2 direction = size > 1e-3 ? along / size : vec2(1.0, 0.0);
  float radius = 0.5 * u_width * a_span.z + 1.0;
  vec2 offset = direction * (position.x < 0.5 ? -radius : radius) + vec2(-direction.y, direction.x) * position.y * radius;
  vec4 clip = position.x < 0.5 ? clipA : clipB;
  clip.xy += offset / (0.5 * u_viewport) * clip.w;
  v_place = vec2(position.x < 0.5 ? -radius : size + radius, position.y * radius);
  v_pixels = size;
  v_range = a_span.xy;
  v_size = a_span.z;
  gl_Position = clip;
}
