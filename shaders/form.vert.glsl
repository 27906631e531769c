in vec3 position;
in vec3 a_normal;
in vec3 a_tangent;
// Cosine and sine of the angle round the yarn, millimetres along it, and half its thickness.
in vec4 a_skin;
in float a_tone;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_tangentView;
out vec4 v_skin;
flat out int v_tone;

void main() {
  vec4 positionView = modelViewMatrix * vec4(position, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = normalMatrix * a_normal;
  v_tangentView = normalMatrix * a_tangent;
  v_skin = a_skin;
  v_tone = int(a_tone);
  gl_Position = projectionMatrix * positionView;
}
