import { Body, Broadphase, DistanceConstraint, GSSolver, Spring, Vec3, World } from 'cannon-es';
import type { Judge } from './judge.ts';
import type { Contender } from './net-ours.ts';
import type { SpringNet } from './spring-net.ts';

/** One step is one unit of time; masses make it as long as wanted. */
const TIME_STEP = 1;

interface Setting {
  readonly by: 'springs' | 'constraints';
  /** Stiffness of all a node's springs times the step squared, over its mass. */
  readonly step: number;
  /** Share of the speed lost in a step. */
  readonly damping: number;
  /** Sweeps of the constraint solver. */
  readonly iterations: number;
}

const SETTINGS: readonly Setting[] = [
  { by: 'springs', step: 1, damping: 0.04, iterations: 0 },
  { by: 'springs', step: 1, damping: 0.01, iterations: 0 },
  { by: 'springs', step: 1.6, damping: 0.02, iterations: 0 },
  { by: 'springs', step: 1.6, damping: 0.01, iterations: 0 },
  { by: 'springs', step: 1.6, damping: 0.007, iterations: 0 },
  { by: 'constraints', step: 4, damping: 0.02, iterations: 5 },
  { by: 'constraints', step: 20, damping: 0.02, iterations: 10 },
  { by: 'constraints', step: 100, damping: 0.05, iterations: 30 },
];

/** cannon-es: bodies without shape or turning; springs, or distance constraints as soft as the springs. */
export function cannonContenders(): Contender[] {
  return SETTINGS.map((setting) => ({
    solver: 'cannon-es',
    setting: `${setting.by}, dt^2 k/m ${setting.step}, damping ${setting.damping} a step${setting.by === 'constraints' ? `, iterations ${setting.iterations}` : ''}`,
    run: (net, judge) => { runWorld(net, judge, setting); },
  }));
}

/** Nothing here collides. */
class NoBroadphase extends Broadphase {
  override collisionPairs(): void { /* no pairs */ }
}

function runWorld(net: SpringNet, judge: Judge, setting: Setting): void {
  const world = new World({ gravity: new Vec3(0, 0, 0), broadphase: new NoBroadphase() });
  const bodies = makeBodies(net, setting);
  for (const body of bodies) world.addBody(body);
  // Else it clears a table of all pairs in every step.
  world.collisionMatrix.setNumObjects(0);
  world.collisionMatrixPrevious.setNumObjects(0);
  const springs = setting.by === 'springs' ? makeSprings(net, bodies) : [];
  if (setting.by === 'constraints') addConstraints(net, world, bodies, setting.iterations);
  const { loads } = net;
  const positions = net.start.slice();
  judge.begin();
  for (let isOver = false; !isOver;) {
    for (let v = 0; v < bodies.length; v++) bodies[v].force.set(loads[3 * v], loads[3 * v + 1], loads[3 * v + 2]);
    for (const spring of springs) spring.applyForce();
    world.step(TIME_STEP);
    if (!judge.isDue()) continue;
    bodies.forEach(({ position }, v) => { positions.set([position.x, position.y, position.z], 3 * v); });
    isOver = judge.look(positions);
  }
}

function makeBodies(net: SpringNet, { step, damping }: Setting): Body[] {
  const sums = new Float64Array(net.nodeCount);
  for (let k = 0; k < net.rest.length; k++) {
    sums[net.ends[2 * k]] += net.stiffness[k];
    sums[net.ends[2 * k + 1]] += net.stiffness[k];
  }
  return Array.from(sums, (sum, v) => {
    const [x, y, z] = net.start.subarray(3 * v, 3 * v + 3);
    const mass = net.isPinned[v] === 1 ? 0 : sum * TIME_STEP ** 2 / step;
    return new Body({ mass, position: new Vec3(x, y, z), fixedRotation: true, linearDamping: damping, allowSleep: false });
  });
}

function makeSprings(net: SpringNet, bodies: readonly Body[]): Spring[] {
  return Array.from(net.rest, (restLength, k) => {
    const spring = new Spring(bodies[net.ends[2 * k]], bodies[net.ends[2 * k + 1]], { restLength, stiffness: net.stiffness[k] });
    // Not an option of its constructor, which takes 0 for "as usual".
    spring.damping = 0;
    return spring;
  });
}

/** At rest a constraint of finite stiffness carries just that times its stretch. */
function addConstraints(net: SpringNet, world: World, bodies: readonly Body[], iterations: number): void {
  const solver = new GSSolver();
  solver.iterations = iterations;
  world.solver = solver;
  for (let k = 0; k < net.rest.length; k++) {
    const constraint = new DistanceConstraint(bodies[net.ends[2 * k]], bodies[net.ends[2 * k + 1]], net.rest[k]);
    constraint.distanceEquation.setSpookParams(net.stiffness[k], 4, TIME_STEP);
    world.addConstraint(constraint);
  }
}
