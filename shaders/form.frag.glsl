in vec3 v_positionView;
in vec3 v_normalView;
in vec3 v_tangentView;
in vec4 v_skin;
flat in int v_tone;

uniform vec3 u_tones[TONES];

out vec4 fragColour;

// Yarn of a close-up: strands and furrows as in the fabric's own picture (yarn.frag.glsl), without its fibres.
void main() {
  vec3 toEye = normalize(-v_positionView), tangent = normalize(v_tangentView), normal = normalize(v_normalView);
  float ply = plyPlace(atan(v_skin.y, v_skin.x) / 6.28318531, v_skin.z, v_skin.w), square = 4.0 * ply * ply;
  float slope = PLY_DEPTH * 8.0 * ply * (0.55 + 0.9 * square) * PLIES;
  normal = normalize(normal + normalize(cross(tangent, normal)) * (slope / 6.28318531) - tangent * (slope / (TURN * 2.0)));
  float furrow = 1.0 - 0.3 * square * square;
  fragColour = vec4(toSrgb(lightWool(u_tones[v_tone] * furrow, normal, toEye, furrow, 1.0)), 1.0);
}
