import { createRequire } from 'node:module';
import type Ammo from 'ammojs3';
import type { Judge } from './judge.ts';
import type { Contender } from './net-ours.ts';
import type { SpringNet } from './spring-net.ts';

/** The package's quicker build, in WebAssembly. */
const load = createRequire(import.meta.url)('ammojs3/dist/ammo.wasm.js') as typeof Ammo;
type Engine = Awaited<ReturnType<typeof load>>;

const TIME_STEP = 1;

interface Setting {
  /** Linear stiffness (kLST, 0 to 1) of the stiffest link; the others in proportion. */
  readonly stiffness: number;
  /** Share of the speed lost in a step (kDP). */
  readonly damping: number;
  /** Sweeps over the links in a step. */
  readonly iterations: number;
}

const SETTINGS: readonly Setting[] = [
  { stiffness: 1, damping: 0.02, iterations: 1 },
  { stiffness: 0.5, damping: 0.02, iterations: 1 },
  { stiffness: 0.1, damping: 0.01, iterations: 1 },
  { stiffness: 0.05, damping: 0.005, iterations: 1 },
  { stiffness: 0.03, damping: 0.003, iterations: 1 },
  { stiffness: 0.05, damping: 0.01, iterations: 4 },
];

/**
 * ammojs3 (Bullet's soft body): links whose stiffness is a share of the stretch undone in a sweep.
 * With masses to match, that share balances a load as a spring would, as long as it is small.
 */
export function ammoContenders(): Contender[] {
  return SETTINGS.map((setting) => ({
    solver: 'ammojs3', setting: `kLST ${setting.stiffness}, kDP ${setting.damping}, piterations ${setting.iterations}`,
    run: (net, judge) => runSoftBody(net, judge, setting),
  }));
}

async function runSoftBody(net: SpringNet, judge: Judge, setting: Setting): Promise<void> {
  const engine = await load<object>({});
  const world = makeWorld(engine);
  const body = makeBody(engine, net, world, setting);
  const nodes = Array.from({ length: net.nodeCount }, (_, v) => body.get_m_nodes().at(v));
  const force = new engine.btVector3(0, 0, 0);
  world.addSoftBody(body, 0, 0);
  // The links take their rest lengths from where the nodes are in the first step; then all go to the start.
  world.stepSimulation(TIME_STEP, 0);
  const { start, loads } = net;
  nodes.forEach((node, v) => { node.get_m_x().setValue(start[3 * v], start[3 * v + 1], start[3 * v + 2]); });
  nodes.forEach((node) => { node.get_m_v().setValue(0, 0, 0); });
  const positions = start.slice();
  judge.begin();
  for (let isOver = false; !isOver;) {
    for (let v = 0; v < net.nodeCount; v++) {
      force.setValue(loads[3 * v], loads[3 * v + 1], loads[3 * v + 2]);
      body.addForce(force, v);
    }
    world.stepSimulation(TIME_STEP, 0);
    if (!judge.isDue()) continue;
    nodes.forEach((node, v) => {
      const at = node.get_m_x();
      positions.set([at.x(), at.y(), at.z()], 3 * v);
    });
    isOver = judge.look(positions);
  }
}

function makeWorld(engine: Engine): Ammo.btSoftRigidDynamicsWorld {
  const configuration = new engine.btSoftBodyRigidBodyCollisionConfiguration();
  const world = new engine.btSoftRigidDynamicsWorld(
    new engine.btCollisionDispatcher(configuration), new engine.btDbvtBroadphase(),
    new engine.btSequentialImpulseConstraintSolver(), configuration, new engine.btDefaultSoftBodySolver(),
  );
  const weightless = new engine.btVector3(0, 0, 0);
  world.setGravity(weightless);
  world.getWorldInfo().set_m_gravity(weightless);
  return world;
}

function makeBody(engine: Engine, net: SpringNet, world: Ammo.btSoftRigidDynamicsWorld, setting: Setting): Ammo.btSoftBody {
  let stiffest = 0;
  for (const stiffness of net.stiffness) stiffest = Math.max(stiffest, stiffness);
  // A link moves each of two equal ends by kLST / 2 of its stretch in a sweep.
  const mass = 2 * stiffest * TIME_STEP ** 2 / (setting.stiffness * setting.iterations);
  const body = new engine.btSoftBody(world.getWorldInfo(), 0, new engine.btVector3(0, 0, 0), []);
  const at = new engine.btVector3(0, 0, 0);
  for (let v = 0; v < net.nodeCount; v++) {
    const [x, y, z] = net.restShape.subarray(3 * v, 3 * v + 3);
    at.setValue(x, y, z);
    body.appendNode(at, net.isPinned[v] === 1 ? 0 : mass);
  }
  const materials = new Map<number, Ammo.Material>();
  for (let k = 0; k < net.rest.length; k++) {
    const a = net.ends[2 * k], b = net.ends[2 * k + 1];
    // One end pinned: the other takes the whole correction.
    const share = setting.stiffness * net.stiffness[k] / stiffest * (net.isPinned[a] !== net.isPinned[b] ? 0.5 : 1);
    let material = materials.get(share);
    if (material === undefined) {
      material = body.appendMaterial();
      material.set_m_kLST(share);
      materials.set(share, material);
    }
    body.appendLink(a, b, material, false);
  }
  const settings = body.get_m_cfg();
  settings.set_piterations(setting.iterations);
  settings.set_viterations(0);
  settings.set_collisions(0);
  settings.set_kDP(setting.damping);
  return body;
}
