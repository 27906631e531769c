in vec3 v_positionView;
in vec3 v_normalView;
in vec3 v_tangentView;
in vec3 v_upView;
in vec2 v_round;
in float v_along;
in float v_height;
in float v_radius;
#if IS_CUT
in float v_side;
uniform float u_cut;
#endif
flat in uint v_look;
flat in float v_onScale;
flat in vec2 v_within;

uniform float u_dim;
uniform vec3 u_paper;
// Share of the yarn that is drawn while it comes up over the mesh.
uniform float u_shown;
uniform float u_halo;
// 1 where the fabric's outside faces inwards.
uniform float u_everted;
// 1 where the sock is cut open: light comes in.
uniform float u_opened;
// Pixels of the screen to a millimetre at distance 1, mm.
uniform float u_pixels;

out vec4 fragColour;

// Jimenez' interleaved gradient noise: even over any small patch of the screen.
float ditherAt(vec2 pixel) { return fract(52.9829189 * fract(dot(pixel, vec2(0.06711056, 0.00583715)))); }

#if HAS_PLIES
float hash(vec2 p) {
  vec3 q = fract(vec3(p.xyx) * 0.1031);
  q += dot(q, q.yzx + 33.33);
  return fract((q.x + q.y) * q.z);
}

// Noise between -1 and 1, smooth between whole places; even round the yarn, which takes `wrap` places.
float noise(vec2 p, float wrap) {
  vec2 i = floor(p), f = p - i;
  f *= f * (3.0 - 2.0 * f);
  float x0 = mod(i.x, wrap), x1 = mod(i.x + 1.0, wrap);
  float low = mix(hash(vec2(x0, i.y)), hash(vec2(x1, i.y)), f.x), high = mix(hash(vec2(x0, i.y + 1.0)), hash(vec2(x1, i.y + 1.0)), f.x);
  return 2.0 * mix(low, high, f.y) - 1.0;
}
#endif

void main() {
#if IS_CUT
  if (v_side < u_cut) discard;
#endif
  float cover = 1.0;
  if (u_shown < 1.0) {
    cover = clamp((u_shown - ditherAt(gl_FragCoord.xy)) * 4.0 + 0.5, 0.0, 1.0);
    if (cover <= 0.0) discard;
  }
  vec3 toEye = normalize(-v_positionView), tangent = normalize(v_tangentView), normal = normalize(v_normalView);
  vec3 albedo = lookColour(v_look);
  int bits = lookBits(v_look);
  float furrow = 1.0;
#if HAS_PLIES
  float perMm = u_pixels / max(-v_positionView.z, 1e-3), fine = clamp(perMm * v_radius * 0.12 - 0.5, 0.0, 1.0);
  float round = atan(v_round.y, v_round.x) / 6.28318531;
  float turns = plyTurns(round, v_along, v_radius), ply = turns - floor(turns + 0.5), square = 4.0 * ply * ply;
  vec3 around = cross(tangent, normal);
  // Strands are round: the skin slopes away from each one's middle, along the yarn by its twist too.
  float slope = PLY_DEPTH * 8.0 * ply * (0.55 + 0.9 * square) * PLIES * fine;
  vec2 fall = vec2(slope / 6.28318531, -slope / (TURN * 2.0));
  furrow = 1.0 - 0.55 * square * square * fine;
  // Fibres lie slantwise in each strand, and lighter and darker ones side by side.
  float lay = v_along / v_radius;
  float streak = noise(vec2(9.0 * turns + 3.0 * lay, 0.55 * lay), 27.0) * 0.6 + noise(vec2(18.0 * turns + 11.0 * lay, 1.4 * lay), 54.0) * 0.4;
  albedo *= 1.0 + 0.2 * fine * streak;
  fall.x += 0.16 * fine * streak;
  normal = normalize(normal + normalize(around) * fall.x + tangent * fall.y);
#endif
  // How far out a point lies as seen from either side, in thicknesses; the yarn is round about its own height.
  float outwards = dot(normal, v_upView), level = v_height + 0.5 * outwards;
  float fromOutside = smoothstep(-1.0, 0.8, level), fromInside = smoothstep(-1.0, 0.8, -level);
  float seen = clamp(0.5 + 1.2 * dot(v_upView, toEye), 0.0, 1.0);
  float open = mix(fromInside, fromOutside, clamp(0.5 + 0.5 * outwards, 0.0, 1.0) * 0.5 + 0.5 * seen);
  open = (0.25 + 0.75 * open) * furrow;
  float isWithin = mix(1.0 - seen, seen, u_everted);
  float depth = mix(1.0, mix(v_within.y, 0.9, u_opened), isWithin);
  float hollow = clamp(1.0 - 2.2 * max(v_within.x * (2.0 * seen - 1.0), 0.0), 0.45, 1.0);
  float shade = mix(0.55, 1.0, open) * mix(hollow, depth, isWithin);
#if IS_CUT
  if (!gl_FrontFacing) {
    // Looking into a yarn that is cut: its end.
    normal = toEye;
    open = 0.62;
    shade = 0.8;
  }
#endif
  vec3 colour;
  float lit = (bits & LOOK_LIT) != 0 ? 1.0 : 0.0, marked = (bits & LOOK_MARKED) != 0 ? 1.0 : 0.0;
  if (u_mapped > 0.5) {
    colour = litMap(lightMap(scaleColour(v_onScale), normal, toEye, open, shade), lit);
  } else {
    colour = lightWool(albedo, normal, toEye, open * hollow * depth, shade);
    colour = mix(colour, colour * 0.6 + vec3(0.5, 0.42, 0.25), 0.55 * lit);
  }
  colour = mix(colour, albedo * (0.62 + 0.5 * open), 0.9 * marked);
  colour = mix(colour, u_paper, u_dim);
  fragColour = vec4(toSrgb(colour), cover);
}
