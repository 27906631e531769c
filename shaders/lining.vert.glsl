in vec3 position;
in vec3 a_normal;
in uint a_look;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
uniform mat3 normalMatrix;
uniform float u_everted;
// How far behind the cloth's middle it lies, mm, seen from inside and from outside.
uniform vec2 u_sink;

// How soon it is as deep as it gets, where the cloth turns away; chosen by eye.
const float TURNING = 3.0;

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_colour;
#if IS_CUT
out float v_side;
#endif

void main() {
  vec3 outwards = a_normal * (1.0 - 2.0 * u_everted);
  vec3 outwardsView = normalMatrix * outwards, toEye = -normalize((modelViewMatrix * vec4(position, 1.0)).xyz);
  // Away from the eye on both sides, and not at all where the cloth turns from one to the other: nothing shows beyond its edge.
  float facing = clamp(TURNING * dot(normalize(outwardsView), toEye), -1.0, 1.0);
  vec4 positionView = modelViewMatrix * vec4(position - facing * (facing > 0.0 ? u_sink.y : u_sink.x) * outwards, 1.0);
  v_positionView = positionView.xyz;
  v_normalView = outwardsView * sign(facing);
  v_colour = lookColour(a_look);
#if IS_CUT
  v_side = position.y;
#endif
  gl_Position = projectionMatrix * positionView;
}
