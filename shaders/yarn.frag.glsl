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

// Light that stray fibres scatter; chosen by eye.
const float FUZZ = 0.3;

// Jimenez' interleaved gradient noise: even over any small patch of the screen.
float ditherAt(vec2 pixel) { return fract(52.9829189 * fract(dot(pixel, vec2(0.06711056, 0.00583715)))); }

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

// A place on the yarn as it is drawn, fibres and all, taken to the yarn's skin: its normal there, and how much of the pixel is
// covered where only fibres stand beyond the skin's edge. `a` is the distance from the yarn's middle as it is seen, in half thicknesses.
vec3 withinHalo(vec3 normal, vec3 tangent, vec3 toEye, out float a) {
  vec3 facing = toEye - tangent * dot(tangent, toEye);
  facing = normalize(facing + 1e-5 * normal);
  vec3 side = cross(facing, tangent);
  a = dot(normal, side) * (1.0 + u_halo);
  float t = clamp(a, -1.0, 1.0);
  return normalize(t * side + sqrt(1.0 - t * t) * facing);
}

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
  float lit = (bits & LOOK_LIT) != 0 ? 1.0 : 0.0, marked = (bits & LOOK_MARKED) != 0 ? 1.0 : 0.0;
  float furrow = 1.0, rim = 0.0;
#if HAS_PLIES
  float a;
  normal = withinHalo(normal, tangent, toEye, a);
  // Pixels to half a thickness.
  float size = u_pixels / max(-v_positionView.z, 1e-3) * v_radius, fine = clamp(size * 0.16 - 0.5, 0.0, 1.0), finest = clamp(size * 0.05 - 0.5, 0.0, 1.0);
  // Counted anew after every 256 turns: hundreds of metres would leave a float no fraction of a fibre.
  float along = mod(v_along, 256.0 * TURN * 2.0 * v_radius), lay = along / v_radius;
  rim = max((abs(a) - 1.0) / max(u_halo, 1e-3), 0.0);
  if (rim > 0.0) {
    // Fibres stand off the yarn, each its own way, and fewer the farther out.
    float stray = noise(vec2(5.0 * lay + 2.5 * a, 3.0 * a), 1e4) * 0.5 + noise(vec2(13.0 * lay - 4.0 * a, 5.0 * a), 1e4) * 0.5;
    cover *= mix(0.6 * (1.0 - rim), clamp(3.0 * (0.6 * stray + 0.25 - 0.8 * rim), 0.0, 1.0), finest);
  }
  float round = atan(v_round.y, v_round.x) / 6.28318531;
  float turns = plyTurns(round, along, v_radius), ply = turns - floor(turns + 0.5), square = 4.0 * ply * ply;
  vec3 around = cross(tangent, normal);
  // Fibres lie slantwise in each strand, lighter and darker ones side by side; the finest lie every way.
  float streak = noise(vec2(7.0 * turns + 3.0 * lay, 0.5 * lay), 28.0) * 0.55 + noise(vec2(16.0 * turns + 7.0 * lay, 1.1 * lay), 64.0) * 0.45;
  float felt = noise(vec2(32.0 * turns - 9.0 * lay, 2.6 * lay), 128.0) * 0.5 + noise(vec2(44.0 * turns + 25.0 * lay, 4.0 * lay), 176.0) * 0.5;
  // Strands are round, if not even: the skin slopes away from each one's middle, along the yarn by its twist too.
  float slope = PLY_DEPTH * 8.0 * ply * (0.55 + 0.9 * square) * PLIES * fine;
  vec2 fall = vec2(slope / 6.28318531, -slope / (TURN * 2.0));
  furrow = 1.0 - (0.26 + 0.1 * streak) * square * square * fine;
  // Light and dark by themselves more than by how the light falls, which runs along the fibres of one leg of a stitch and across those of the other.
  albedo *= 1.0 + 0.3 * fine * streak + 0.44 * finest * felt;
  fall += vec2(0.1 * fine * streak + 0.12 * finest * felt, 0.12 * finest * felt);
  normal = normalize(normal + normalize(around) * fall.x + tangent * fall.y);
#endif
  // How far out a point lies as seen from either side, in thicknesses; the yarn is round about its own height.
  float outwards = dot(normal, v_upView), level = v_height + 0.5 * outwards;
  float fromOutside = smoothstep(-1.0, 0.8, level), fromInside = smoothstep(-1.0, 0.8, -level);
  float seen = clamp(0.5 + 1.2 * dot(v_upView, toEye), 0.0, 1.0);
  float open = mix(fromInside, fromOutside, clamp(0.5 + 0.5 * outwards, 0.0, 1.0) * 0.5 + 0.5 * seen);
  open = (0.46 + 0.6 * open) * furrow;
  // Where the cloth turns over at its edge the yarn that is seen beyond still lies in the light.
  float isWithin = clamp(-0.57 - 2.86 * dot(v_upView, toEye) * (1.0 - 2.0 * u_everted), 0.0, 1.0) * (1.0 - clamp(3.0 * -v_within.x, 0.0, 1.0));
  float depth = mix(1.0, mix(v_within.y, 0.9, u_opened), isWithin);
  float hollow = clamp(1.0 - 2.2 * max(v_within.x * (2.0 * seen - 1.0), 0.0), 0.45, 1.0);
  float shade = mix(0.76, 1.0, open) * mix(hollow, depth, isWithin);
#if IS_CUT
  if (!gl_FrontFacing) {
    // Looking into a yarn that is cut: its end.
    normal = toEye;
    open = 0.62;
    shade = 0.8;
  }
#endif
  // What shines by itself, seen as light that falls from where the eye is: darker on its flanks and in the furrows.
  float facing = clamp(dot(normal, normalize(toEye + 0.45 * KEY_DIRECTION)), 0.0, 1.0), glow = (1.0 - 0.65 * (1.0 - facing) * (1.25 - facing)) * (0.5 + 0.5 * open);
  vec3 colour;
  if (u_mapped > 0.5) {
    colour = litMap(lightMap(scaleColour(v_onScale), normal, toEye, open, shade), lit);
  } else {
    // The cloth's rim, not each yarn's; and on a yarn's flanks the fibres that stand off catch light.
    float edge = 1.0 - abs(dot(v_upView, toEye)), flank = 1.0 - clamp(dot(normal, toEye), 0.0, 1.0);
    colour = lightFibres(albedo, normal, edge, open * hollow * depth, shade);
    colour += mix(albedo, sqrt(albedo), 0.3) * albedo * (u_sky + u_ground) * (FUZZ * flank * flank * open * hollow * depth);
    // The loop under the pointer glows as round as it is.
    colour = mix(colour, colour * 0.6 + vec3(0.5, 0.42, 0.25) * glow, 0.55 * lit);
  }
  // A marked loop shines by itself, whatever lies over the rest.
  colour = mix(colour, albedo * glow, 0.9 * marked);
  colour = mix(colour, u_paper, u_dim);
  fragColour = vec4(toSrgb(colour), cover);
}
