import type { Couplings } from './stiffness.ts';

/**
 * One part of an energy over node positions. Positions and gradients are flat, three entries a
 * node (x y z of node 0, of node 1, ...). Lengths in mm, forces in N, energies in mJ.
 */
export interface EnergyTerm {
  /** Adds the gradient at `positions` to `gradient` and returns the energy. Allocates nothing. */
  addGradient(positions: Float64Array, gradient: Float64Array): number;
  /**
   * Adds the term's share of the initial metric: a scalar model of its Hessian, which stands for
   * the coordinates `axes` (0 x, 1 y, 2 z) alike. Terms that a metric can do without leave it out.
   */
  addMetric?(sink: MetricSink, axes: readonly number[]): void;
  /** Groups of nodes whose blocks `addStiffness` fills; none for a term that couples no nodes. */
  couplings?(): Couplings;
  /** Adds a positive semidefinite model of the Hessian at `positions` (what it leaves out stands with each term). Allocates nothing. */
  addStiffness?(positions: Float64Array, sink: StiffnessSink): void;
  /** Sum of the absolute forces along edges at the last evaluated positions, N, and how many edges those are. */
  edgeForces?(): { readonly sum: number; readonly count: number };
}

/** Collects a symmetric positive semidefinite matrix over nodes as a sum of weighted squares. */
export interface MetricSink {
  /**
   * Adds weight * c c^T, where c has the `count` coefficients from `coefficients[from]` on at the
   * nodes from `nodes[from]` on. The weight must not be negative.
   */
  addSquare(weight: number, nodes: Int32Array, coefficients: Float64Array, from: number, count: number): void;
  addDiagonal(node: number, weight: number): void;
}

/** Collects a symmetric matrix of 3 x 3 blocks over nodes. */
export interface StiffnessSink {
  /** Adds a dense symmetric matrix over the `count` nodes from `nodes[from]` on: 3 count rows of as many entries, of which the blocks above the diagonal are not read. */
  addBlocks(nodes: Int32Array, from: number, count: number, dense: Float64Array): void;
}

/** Entries a node. */
export const STRIDE = 3;
