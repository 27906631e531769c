import type { EnergyTerm } from './energy.ts';

/** A term at another weight. Its metric is left out: it serves beside the term itself. */
export function createScaledTerm(term: EnergyTerm, factor: number, nodeCount: number): EnergyTerm {
  const own = new Float64Array(3 * nodeCount);
  return {
    addGradient(positions, gradient) {
      own.fill(0);
      const energy = term.addGradient(positions, own);
      for (let i = 0; i < own.length; i++) gradient[i] += factor * own[i];
      return factor * energy;
    },
  };
}
