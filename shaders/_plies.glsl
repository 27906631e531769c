// Yarn as it is plied: strands that wind round each other, furrows between them.
// Chosen by eye: strands, thicknesses of yarn to a turn, and depth of a furrow in half thicknesses.
const float PLIES = 4.0;
const float TURN = 4.6;
const float PLY_DEPTH = 0.13;

// Turns of a place on the yarn's skin from the middle of a strand, at which it would be 0, in strands: whole numbers are middles.
float plyTurns(float round, float alongMm, float radius) {
  return PLIES * (round - alongMm / (TURN * 2.0 * radius));
}

// Place across the nearest strand, -0.5..0.5.
float plyPlace(float round, float alongMm, float radius) {
  float turns = plyTurns(round, alongMm, radius);
  return turns - floor(turns + 0.5);
}
