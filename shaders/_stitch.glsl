// One stitch of the cloth as a height field over its loop's own frame: x in stitches to the
// right, y in rows up, the loop's middle at the origin. Heights and thicknesses in stitches.

// Yarn's half thickness in the parts of a loop; chosen by eye.
const float LEG_RADIUS = 0.21;
const float ARC_RADIUS = 0.165;

// Half the width that a wale takes, in stitches: a rib's knit wales stand forward and spread over
// the purl wales between them.
float ribReach(bool isRib, bool isPurl) { return isRib ? (isPurl ? 0.36 : 0.64) : 0.5; }

// One piece of yarn under a point: height over the cloth's middle, slope of that height along
// the frame's axes, coverage 0..1, place along the yarn, and across it (-1..1).
struct Strand { float height; vec2 slope; float cover; float along; float across; };

// Round yarn about an axis: `t` is the distance from the axis in half thicknesses, signed towards
// `side`; `lift` the axis' height and `climb` its slope. A circle's slope t / sqrt(1 - t t) is
// taken as a cubic: the same but at the very rim, and no pole there.
Strand roundStrand(float t, vec2 side, float radius, float lift, vec2 climb, float along, float softness) {
  float u = clamp(t, -1.0, 1.0), square = u * u;
  float cover = clamp((1.0 + softness - abs(t)) / (2.0 * softness), 0.0, 1.0);
  return Strand(lift + radius * sqrt(1.0 - 0.97 * square), climb - side * (u * (0.75 + 1.1 * square)), cover, along, u);
}

// A leg of the knit side's V: leaves the loop below near the middle, bows out, ends under the
// legs of the loop above. `aspect` is row height over stitch width.
Strand knitLeg(vec2 q, float aspect, float softness) {
  float side = q.x < 0.0 ? -1.0 : 1.0, y = q.y;
  float axis = 0.24 + y * (0.265 - 0.08 * y);
  float s = (y + 0.04) / 0.86, square = s * s;
  float taper = max(1.0 - square * square, 0.0);
  // The leg leans by 20 degrees on the mean: cosine 0.94.
  float t = (abs(q.x) - axis) * 0.94 / (LEG_RADIUS * (0.2 + 0.8 * taper));
  Strand leg = roundStrand(t, vec2(side * 0.94, -0.34), LEG_RADIUS, 0.17 - 0.21 * square, vec2(0.0, -0.47 * s), y * aspect * side, softness);
  leg.cover *= min(1.0, 12.0 * taper);
  leg.across *= side;
  return leg;
}

// Half of an arc of the purl side: head of the loop (up = 1) or the yarn between two loops
// (up = -1), d from the arc's middle.
Strand purlArc(vec2 d, float aspect, float up, float softness) {
  vec2 p = vec2(d.x, d.y * aspect);
  float r = length(p) + 1e-4;
  vec2 away = p / r;
  float rise = away.y * up;
  vec2 climb = vec2(-away.y, away.x) * (0.55 * up * away.x);
  // Past its shoulders the yarn dives under the rest.
  float dive = min(rise, 0.0);
  return roundStrand((r - 0.275) / ARC_RADIUS, away, ARC_RADIUS, 0.15 * rise - 0.02 - 0.6 * dive * dive, climb, p.x * 1.2, softness);
}

// The cast-on's cord along a boundary: slanted turns of yarn, one a stitch.
Strand edgeCord(vec2 q, float aspect, float softness) {
  vec2 p = vec2(q.x, (q.y + 0.2) * aspect);
  float x = fract(p.x + p.y * 0.9 + 0.5) - 0.5;
  float s = clamp(p.y / 0.22, -1.0, 1.0), bulge = sqrt(1.0 - 0.97 * s * s);
  Strand turn = roundStrand(x * 2.06, vec2(0.743, 0.669), 0.36, 0.45 + 0.2 * bulge, vec2(0.0, -s * (0.75 + 1.1 * s * s)), p.y, softness);
  turn.cover *= clamp((1.0 - abs(p.y / 0.24)) * 10.0, 0.0, 1.0);
  return turn;
}
