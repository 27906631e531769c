// Spans along the piece, and turns round the yarn.
in vec2 position;
in uint a_piece;

uniform mat4 modelViewMatrix;
uniform mat4 projectionMatrix;
// Control points: x, y, z and millimetres along the yarn; directions out of the fabric times 127, and thicknesses over its middle times 32.
uniform highp sampler2D u_points;
uniform highp isampler2D u_ups;
// Pieces: look, last control point of their length, place on the scale of colours, and what they lie in (laid-yarn.ts).
uniform highp usampler2D u_pieces;
// Share of its thickness by which the yarn is drawn thicker, for the fibres that stand off it.
uniform float u_halo;
// Its thickness as it is drawn over its own (yarn-levels.ts).
uniform float u_body;
#if HAS_PLIES
// 1 where there are points enough round the yarn to show its strands in its outline.
uniform float u_relief;
#endif

out vec3 v_positionView;
out vec3 v_normalView;
out vec3 v_tangentView;
out vec3 v_upView;
// Cosine and sine of the angle round the yarn from out of the fabric.
out vec2 v_round;
out float v_along;
// Thicknesses over the fabric's middle.
out float v_height;
out float v_radius;
#if IS_CUT
out float v_side;
#endif
flat out uint v_look;
flat out float v_onScale;
// Hollowness -1..1, and light within the sock 0..1.
flat out vec2 v_within;

ivec2 texelOf(int i) { return ivec2(i % TEXTURE_WIDTH, i / TEXTURE_WIDTH); }

void main() {
  uvec4 piece = texelFetch(u_pieces, texelOf(int(a_piece)), 0);
  int span = min(int(position.x), PIECE_POINTS - 1), first = PIECE_POINTS * int(a_piece) + span, last = int(piece.y);
  float t = position.x - float(span), s = 1.0 - t;
  // A uniform cubic B-spline and its slope (yarn/spline.ts).
  vec4 weights = vec4(s * s * s, (3.0 * t - 6.0) * t * t + 4.0, (3.0 * s - 6.0) * s * s + 4.0, t * t * t) / 6.0;
  vec4 slopes = vec4(-s * s, (3.0 * t - 4.0) * t, (4.0 - 3.0 * s) * s, t * t) / 2.0;
  vec4 centre = vec4(0.0), up = vec4(0.0);
  vec3 slope = vec3(0.0);
  for (int k = 0; k < 4; k++) {
    ivec2 at = texelOf(min(first + k, last));
    vec4 point = texelFetch(u_points, at, 0);
    centre += weights[k] * point;
    slope += slopes[k] * point.xyz;
    up += weights[k] * vec4(texelFetch(u_ups, at, 0));
  }
  float speed = length(slope);
  // A yarn's end is closed to a point.
  float isYarn = step(1e-4, speed);
  vec3 tangent = slope / max(speed, 1e-6);
  vec3 across = cross(tangent, up.xyz);
  across = dot(across, across) > 1e-4 ? normalize(across) : normalize(cross(tangent, vec3(0.31, 0.72, 0.62)));
  vec3 out_ = cross(across, tangent);
  float angle = 6.28318531 * position.y;
  v_round = vec2(cos(angle), sin(angle));
  vec3 normal = v_round.x * out_ + v_round.y * across;
  v_radius = float(piece.w & 65535u) * 0.001 * u_body;
  float radius = v_radius * isYarn * (1.0 + u_halo);
#if HAS_PLIES
  float ply = plyPlace(position.y, centre.w, v_radius);
  radius -= u_relief * v_radius * PLY_DEPTH * 4.0 * ply * ply;
#endif
  vec3 place = centre.xyz + radius * normal;
  vec4 positionView = modelViewMatrix * vec4(place, 1.0);
  mat3 turn = mat3(modelViewMatrix);
  v_positionView = positionView.xyz;
  v_normalView = turn * normal;
  v_tangentView = turn * tangent;
  v_upView = turn * out_;
  v_along = centre.w;
  v_height = up.w / 32.0;
#if IS_CUT
  v_side = place.y;
#endif
  v_look = piece.x;
  v_onScale = uintBitsToFloat(piece.z);
  v_within = vec2(float((piece.w >> 16) & 255u) / 127.5 - 1.0, float(piece.w >> 24) / 255.0);
  gl_Position = projectionMatrix * positionView;
}
