/** What the bench uses of d3-force-3d, which brings no types. */
declare module 'd3-force-3d' {
  export interface ForceNode {
    x: number; y: number; z: number;
    vx?: number; vy?: number; vz?: number;
    /** Where the node is held. */
    fx?: number; fy?: number; fz?: number;
  }
  export interface ForceLink { readonly source: number; readonly target: number }
  export type Force = (alpha: number) => void;
  export interface LinkForce extends Force {
    distance(of: (link: unknown, index: number) => number): this;
    strength(of: (link: unknown, index: number) => number): this;
    iterations(count: number): this;
  }
  export interface Simulation {
    stop(): this;
    tick(): this;
    alpha(): number;
    alphaMin(): number;
    alphaDecay(decay: number): this;
    velocityDecay(decay: number): this;
    force(name: string, force: Force): this;
  }
  export function forceSimulation(nodes: ForceNode[], dimensions: number): Simulation;
  export function forceLink(links: ForceLink[]): LinkForce;
}
