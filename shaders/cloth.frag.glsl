in vec3 v_positionView;
in vec3 v_normalView;
in vec3 v_colour;
in vec2 v_rest;
in vec2 v_hollow;
in float v_onScale;
in float v_marked;
flat in ivec2 v_cell;
flat in uvec4 v_looks;

uniform sampler2D u_corners;
uniform highp usampler2D u_looks;
uniform vec2 u_aspect;
uniform vec2 u_detail;
uniform float u_dim;
uniform vec3 u_paper;
uniform float u_glass;
// 1 where the fabric's outside faces inwards; 1 where the sock is cut open.
uniform float u_everted;
uniform float u_opened;
#if IS_CUT
in float v_side;
uniform float u_cut;
#endif

out vec4 fragColour;

// What the strands under a pixel add up to: weights favour the highest, the more so the nearer
// the eye, so that far stitches melt together and do not flicker.
// `lit`: under the pointer, and marked.
struct Sum { float weight; vec2 slope; float open; vec3 colour; vec2 lit; };

// Level of the dark between the yarns, which any strand outweighs.
const float GAP_HEIGHT = -0.12;

float weightOf(float height, float closeness) {
  float h = max(height + 0.45, 0.0), h2 = h * h, h4 = h2 * h2;
  return h4 * mix(1.0, h4 * h4 * h4 * 8.0, closeness);
}

void addStrand(inout Sum sum, Strand strand, vec3 colour, float open, vec3 tuning, vec2 lit) {
  float w = strand.cover * weightOf(strand.height, tuning.x);
  // The plies' furrows and finer fibres slant with the yarn's twist: brightness in two waves, parabolas for sines.
  vec2 turn = fract(vec2(4.3, 17.0) * strand.along + vec2(0.42, 1.9) * strand.across);
  turn *= 1.0 - turn;
  colour *= 1.0 + tuning.z * (0.5 * turn.x + 0.28 * turn.y - 0.13);
  sum.weight += w;
  sum.slope += w * strand.slope;
  sum.open += w * open * clamp(0.55 + 1.35 * strand.height, 0.3, 1.0) * (1.0 - 0.6 * strand.across * strand.across);
  sum.colour += w * colour;
  sum.lit += w * lit;
}

// Adds one loop's stitch at place q of its frame. `tuning`: closeness (weightOf), softness of the
// strands' edges, share of the finest detail. What a program's cells never have is left out when
// it is compiled (HAS_...): a renderer without a graphics card computes every branch for every pixel.
void addStitch(inout Sum sum, vec2 q, uint look, vec3 tuning) {
  bool isRib = (v_cell.y & CELL_RIB) != 0;
  int bits = lookBits(look);
  vec3 colour = lookColour(look);
  bool isPurl = ((bits & LOOK_PURL) != 0) != IS_INSIDE;
  vec2 lit = vec2((bits & LOOK_LIT) != 0 ? 1.0 : 0.0, (bits & LOOK_MARKED) != 0 ? 1.0 : 0.0);
  float aspect = isRib ? u_aspect.y : u_aspect.x;
  float reach = HAS_KNIT && HAS_PURL ? ribReach(isRib, isPurl) : 0.5;
  vec2 own = vec2(q.x * 0.5 / reach, q.y);
  bool isNear = abs(q.x) <= reach;
  if (HAS_KNIT && isNear && !isPurl) {
    Strand leg = knitLeg(own, aspect, tuning.y);
    float open = 1.0;
    if (HAS_PURL && isRib) {
      leg.height += 0.1;
      leg.slope.x = leg.slope.x * 0.5 / reach - 1.5 * q.x;
      open -= max(abs(q.x) - 0.35, 0.0);
    }
    if (HAS_EXTRAS) {
      float layer = (bits & LOOK_OVER) != 0 ? 0.16 : (bits & LOOK_UNDER) != 0 ? -0.10 : 0.0;
      leg.height += layer * clamp(2.0 * q.y, 0.0, 1.0);
      leg.cover *= (v_cell.y & CELL_HEM) != 0 && q.y < -0.3 ? 0.0 : 1.0;
    }
    addStrand(sum, leg, colour, open, tuning, lit);
  }
  if (HAS_PURL && isNear && isPurl) {
    float open = isRib ? 0.5 : 1.0;
    addStrand(sum, purlArc(vec2(own.x, own.y - 0.30), aspect, 1.0, tuning.y), colour, open, tuning, lit);
    vec2 foot = vec2(own.x - (own.x < 0.0 ? -0.5 : 0.5), own.y + 0.30);
    addStrand(sum, purlArc(foot, aspect, -1.0, tuning.y), colour, open, tuning, lit);
  }
  if (HAS_EXTRAS) {
    Strand cord = edgeCord(q, aspect, tuning.y);
    cord.cover *= (v_cell.y & CELL_HEM) != 0 ? 1.0 : 0.0;
    addStrand(sum, cord, colour, 1.0, tuning, lit);
  }
}

// Place in the frame of a cell's corner, and that corner's look, from their textures.
void fetchCorner(int corner, out vec2 q, out uint look) {
  int at = corner * 2;
  vec4 a = texelFetch(u_corners, ivec2(at % TEXTURE_WIDTH, at / TEXTURE_WIDTH), 0);
  vec4 b = texelFetch(u_corners, ivec2(at % TEXTURE_WIDTH + 1, at / TEXTURE_WIDTH), 0);
  vec2 d = v_rest - a.xy;
  q = vec2(dot(a.zw, d), dot(b.xy, d));
  int loop = int(b.z + 0.5);
  look = texelFetch(u_looks, ivec2(loop % TEXTURE_WIDTH, loop / TEXTURE_WIDTH), 0).r;
}

// All stitches that reach this pixel: of a plain cell those of the nearer wale, two; of any other
// the ones of all its corners.
void addCell(inout Sum sum, vec3 tuning) {
  bool isRegular = !HAS_EXTRAS || (v_cell.y & CELL_REGULAR) != 0;
  bool isLeftPurl = ((lookBits(v_looks.x) & LOOK_PURL) != 0) != IS_INSIDE;
  float reach = HAS_KNIT && HAS_PURL ? ribReach((v_cell.y & CELL_RIB) != 0, isLeftPurl) : 0.5;
  bool isLeft = v_rest.x <= reach;
  if (isRegular) {
    uvec2 looks = isLeft ? v_looks.xz : v_looks.yw;
    vec2 q = vec2(v_rest.x - (isLeft ? 0.0 : 1.0), v_rest.y);
    addStitch(sum, q, looks.x, tuning);
    addStitch(sum, vec2(q.x, q.y - 1.0), looks.y, tuning);
  }
  if (HAS_EXTRAS) {
    int count = isRegular ? 0 : v_cell.y & 255;
    for (int k = 0; k < count; k++) {
      vec2 q;
      uint look;
      fetchCorner(v_cell.x + k, q, look);
      if (abs(q.y) < 1.0) addStitch(sum, q, look, tuning);
    }
  }
}

// Directions in view space of the cell's rest axes, from how rest place and position change
// over the screen; lengths per millimetre of rest.
void restAxes(vec3 n, out vec3 alongCourse, out vec3 alongWale) {
  vec3 dpx = dFdx(v_positionView), dpy = dFdy(v_positionView);
  vec2 drx = dFdx(v_rest), dry = dFdy(v_rest);
  float det = drx.x * dry.y - drx.y * dry.x;
  float inv = abs(det) > 1e-12 ? 1.0 / det : 0.0;
  alongCourse = (dpx * dry.y - dpy * drx.y) * inv;
  alongWale = (dpy * drx.x - dpx * dry.x) * inv;
  alongCourse = normalize(alongCourse - n * dot(n, alongCourse) + vec3(1e-9));
  alongWale = normalize(alongWale - n * dot(n, alongWale) + vec3(0.0, 1e-9, 0.0));
}

void main() {
#if IS_CUT
  if (v_side < u_cut) discard;
#endif
  vec3 smoothNormal = normalize(v_normalView) * (IS_INSIDE ? -1.0 : 1.0);
  vec3 toEye = normalize(-v_positionView);
  vec2 drx = dFdx(v_rest), dry = dFdy(v_rest);
  // Between the area that a pixel covers and its longer side: a slanting view fades late, but before it flickers.
  float area = abs(drx.x * dry.y - drx.y * dry.x);
  float perPixel = sqrt(sqrt(area * max(dot(drx, drx), dot(dry, dry))));
  float pixels = 1.0 / max(perPixel, 1e-6);
  float plain = 1.0 - clamp((pixels - u_detail.x) / (u_detail.y - u_detail.x), 0.0, 1.0);
  float detail = 1.0 - plain * plain;
  vec3 alongCourse, alongWale;
  restAxes(smoothNormal, alongCourse, alongWale);

  vec3 normal = smoothNormal;
  vec3 albedo = v_colour;
  float open = 0.8;
  vec2 lit = vec2(0.0, v_marked);
  if (detail > 0.0) {
    float closeness = clamp(pixels * 0.04 - 0.2, 0.0, 1.0);
    float softness = clamp(2.2 / pixels, 0.03, 0.3);
    float fine = clamp(pixels * 0.045 - 0.8, 0.0, 1.0);
    float gap = weightOf(GAP_HEIGHT, closeness);
    Sum sum = Sum(gap, vec2(0.0), 0.16 * gap, v_colour * (0.55 * gap), vec2(0.0));
    addCell(sum, vec3(closeness, softness, fine));
    float inv = 1.0 / sum.weight;
    vec2 slope = sum.slope * inv;
    vec3 bumped = normalize(smoothNormal - (alongCourse * slope.x + alongWale * slope.y) * 0.8);
    normal = normalize(mix(smoothNormal, bumped, detail));
    albedo = mix(v_colour, sum.colour * inv, detail);
    open = mix(open, sum.open * inv, detail);
    lit = vec2(sum.lit.x * inv * detail, mix(v_marked, sum.lit.y * inv, detail));
  }
  float hollow = clamp(1.0 - 2.2 * max(v_hollow.x * (IS_INSIDE ? -1.0 : 1.0), 0.0), 0.45, 1.0);
  bool isWithin = IS_INSIDE != (u_everted > 0.5);
  float depth = isWithin && v_hollow.y >= 0.0 ? mix(mix(0.62, 0.2, smoothstep(0.0, 55.0, v_hollow.y)), 0.9, u_opened) : 1.0;
  float shade = isWithin ? depth : hollow;
  vec3 colour;
  if (u_mapped > 0.5) {
    colour = litMap(lightMap(scaleColour(v_onScale), normal, toEye, open, shade), lit.x);
  } else {
    colour = lightWool(albedo, normal, toEye, open * hollow * depth, shade);
    colour = mix(colour, colour * 0.6 + vec3(0.5, 0.42, 0.25), 0.55 * lit.x);
  }
  // A marked loop shines by itself, whatever lies over the rest.
  colour = mix(colour, albedo * (0.62 + 0.5 * open), 0.9 * lit.y);
  colour = mix(colour, u_paper, u_dim);
  float alpha = clothAlpha(u_glass, smoothNormal, toEye);
  fragColour = vec4(toSrgb(colour) * alpha, alpha);
}
