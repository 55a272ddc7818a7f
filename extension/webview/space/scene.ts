import {
  AmbientLight,
  BackSide,
  BufferAttribute,
  BufferGeometry,
  type Color,
  DirectionalLight,
  InstancedMesh,
  Matrix4,
  Mesh,
  MeshBasicMaterial,
  MeshLambertMaterial,
  type Object3D,
  type OrthographicCamera,
  Raycaster,
  Scene,
  Vector2,
  Vector3,
} from 'three';
import type { Vector } from '../../../core/space/vectors.ts';
import type { Camera } from '../../../core/views/space/camera.ts';
import type { Mesh as Surface } from '../../../core/views/space/mesh.ts';
import type { SolidPart, Solids } from '../../../core/views/space/solids.ts';
import { barName } from '../../../core/winding/model.ts';
import type { Subject } from '../../protocol/subject.ts';
import type { Marked } from '../marking.ts';
import { type Belonging, colorIndex, isMarked, isSeen, stepsBack } from './coloring.ts';
import type { SpaceLook, Standing } from './liveSpace.ts';
import type { ThemeColors } from './themeColors.ts';

/** The bars as three.js has them. */
export interface BarScene {
  readonly scene: Scene;
  /** Gives everything its color, takes layers away, and frames what is marked or collides. */
  readonly paint: (colors: ThemeColors, look: SpaceLook, standing: Standing, marked: Marked) => void;
  /** Fewer triangles, for while it is turned. */
  readonly coarse: (coarse: boolean) => void;
  /** Tells how many meters a pixel shows, on which the width of frames depends. */
  readonly scaled: (metersAPixel: number) => void;
  readonly light: (camera: Camera) => void;
  /** What is seen at a place of the area, from -1 to 1 rightwards and upwards. */
  readonly subjectAt: (right: number, up: number, camera: OrthographicCamera) => Subject | null;
  /** Whether something stands before a place in space. */
  readonly hides: (at: Vector, camera: OrthographicCamera) => boolean;
  readonly belonging: (owner: number) => Belonging;
  readonly end: () => void;
}

/** Half the light comes from everywhere, so that colors stay those of the theme. */
const ambient = 0.62 * Math.PI;
const direct = 0.5 * Math.PI;
const stackOpacity = 0.3;
/** How far what steps back goes towards the ground. */
const steppedBack = 0.82;
/** Pixels of the frame round what is marked, what is chosen, and what collides. */
const frames = { marked: 2, chosen: 3, colliding: 2.5 } as const;
/** How far all else goes towards the ground while something is marked. */
const behindMarks = 0.6;

interface Built {
  readonly part: SolidPart;
  readonly mesh: InstancedMesh;
  readonly fine: BufferGeometry;
  readonly coarse: BufferGeometry;
}

/** Puts solids into a scene. */
export function buildScene(solids: Solids): BarScene {
  const { slots, layers } = solids;
  const places = slots * layers;
  const scene = new Scene();
  const sun = new DirectionalLight(0xffffff, direct);
  scene.add(new AmbientLight(0xffffff, ambient), sun);
  const material = new MeshLambertMaterial({ vertexColors: true });
  const built = solids.parts.map((part): Built => {
    const [fine, coarse] = [geometryOf(part.fine), geometryOf(part.coarse)];
    const mesh = new InstancedMesh(fine, material, part.turns.length);
    stand(mesh, part.turns);
    scene.add(mesh);
    return { part, mesh, fine, coarse };
  });
  const stackMaterial = new MeshLambertMaterial({
    transparent: true,
    opacity: stackOpacity,
    depthWrite: false,
  });
  const stackGeometry = geometryOf(solids.stack);
  const stack = new Mesh(stackGeometry, stackMaterial);
  stack.renderOrder = 1;
  scene.add(stack);
  const belongings = Array.from({ length: places + solids.others.length }, (_, owner) =>
    belongingOf(solids, owner),
  );
  const framing = createFraming(scene);
  const ray = new Raycaster();

  return {
    scene,
    paint: (colors, look, standing, marked) => {
      stackMaterial.color = colors.quiet;
      framing.clear();
      const marks: Marked = { ...marked, bars: [...new Set(marked.bars)] };
      const marking = marks.bars.length + marks.joints.length + marks.paths.length > 0;
      const colliding = new Set(
        solids.places.flatMap(({ side, owners, fault }) =>
          fault ? owners.map((owner) => `${side} ${owner}`) : [],
        ),
      );
      for (const { part, mesh, fine } of built) {
        mesh.visible = isSeen(belongings[part.owners[0]!]!, layers, look.opened);
        const framed = { marked: [] as number[], chosen: [] as number[], colliding: [] as number[] };
        part.owners.forEach((owner, index) => {
          const belonging = belongings[owner]!;
          const place = colorIndex(belonging, look.coloring);
          const full = place === null ? colors.ink : colors.phases[place]!;
          const back = stepsBack(belonging, part.side, standing);
          const chosen = belonging.bar !== null && belonging.bar === marks.chosen;
          const lit = chosen || isMarked(belonging, part.joints[index]!, marks);
          const away = lit ? 0 : Math.max(back ? steppedBack : 0, marking ? behindMarks : 0);
          mesh.setColorAt(index, away > 0 ? full.clone().lerp(colors.ground, away) : full);
          if (chosen) framed.chosen.push(index);
          else if (lit) framed.marked.push(index);
          else if (colliding.has(`${part.side} ${owner}`)) framed.colliding.push(index);
        });
        if (mesh.instanceColor) mesh.instanceColor.needsUpdate = true;
        if (!mesh.visible) continue;
        const turnsAt = (indices: readonly number[]) => indices.map((index) => part.turns[index]!);
        framing.add(fine, turnsAt(framed.marked), frames.marked, colors.ink);
        framing.add(fine, turnsAt(framed.chosen), frames.chosen, colors.ink);
        framing.add(fine, turnsAt(framed.colliding), frames.colliding, colors.fault);
      }
    },
    coarse: (wanted) => {
      for (const { mesh, fine, coarse } of built) mesh.geometry = wanted ? coarse : fine;
    },
    scaled: framing.scaled,
    light: ({ right, up, towards }) => {
      const from = [0, 1, 2].map((axis) => -0.45 * right[axis]! + 0.6 * up[axis]! + 0.8 * towards[axis]!);
      sun.position.set(from[0]!, from[1]!, from[2]!);
      sun.updateMatrixWorld();
    },
    subjectAt: (right, up, camera) => {
      ray.setFromCamera(new Vector2(right, up), camera);
      const shown = built.filter(({ mesh }) => mesh.visible);
      const [hit] = ray.intersectObjects(
        shown.map(({ mesh }) => mesh),
        false,
      );
      const at = shown.find(({ mesh }) => mesh === (hit?.object as Object3D | undefined));
      return at && hit?.instanceId !== undefined
        ? subjectOf(belongings[at.part.owners[hit.instanceId]!]!)
        : null;
    },
    hides: ([x, y, z], camera) => {
      const seen = new Vector3().set(x, y, z).project(camera);
      ray.setFromCamera(new Vector2(seen.x, seen.y), camera);
      const { origin, direction } = ray.ray;
      const away = [x - origin.x, y - origin.y, z - origin.z] as const;
      const far = away[0] * direction.x + away[1] * direction.y + away[2] * direction.z;
      const shown = built.flatMap(({ mesh }) => (mesh.visible ? [mesh] : []));
      const [hit] = ray.intersectObjects(shown, false);
      // The place lies on copper or within it.
      return hit !== undefined && hit.distance < far - 0.02 * solids.reach.radius;
    },
    belonging: (owner) => belongings[owner]!,
    end: () => {
      framing.clear();
      for (const { mesh, fine, coarse } of built) {
        mesh.dispose();
        fine.dispose();
        coarse.dispose();
      }
      stackGeometry.dispose();
      stackMaterial.dispose();
      material.dispose();
    },
  };
}

/** Puts a part at all its angles. */
function stand(mesh: InstancedMesh, turns: Iterable<number>): void {
  const matrix = new Matrix4();
  let index = 0;
  for (const turn of turns) mesh.setMatrixAt(index++, matrix.makeRotationZ(turn));
  // All of them together are nearly always in sight.
  mesh.frustumCulled = false;
}

function belongingOf({ slots, layers, others, phases, paths }: Solids, owner: number): Belonging {
  const places = slots * layers;
  const [phase, path] = [phases[owner] ?? -1, paths[owner] ?? 0];
  const thing = others[owner - places];
  if (thing) return { phase, path, layers: thing.layers, bar: null, thing };
  const layer = Math.floor(owner / slots);
  return { phase, path, layers: [layer], bar: barName({ slot: (owner % slots) + 1, layer }), thing: null };
}

function subjectOf({ bar, thing }: Belonging): Subject | null {
  if (bar !== null) return { bar };
  if (!thing) return null;
  const { name, joint, star } = thing;
  if (thing.kind === 'piece') return joint === null ? null : { joint };
  return star ? { star: name, joint } : { terminal: name, joint };
}

function geometryOf({ positions, normals, shades, triangles }: Surface): BufferGeometry {
  const colors = new Uint8Array(3 * shades.length);
  for (const [point, shade] of shades.entries()) colors.fill(shade, 3 * point, 3 * point + 3);
  const geometry = new BufferGeometry()
    .setAttribute('position', new BufferAttribute(positions, 3))
    .setAttribute('normal', new BufferAttribute(normals, 3, true))
    .setAttribute('color', new BufferAttribute(colors, 3, true))
    .setIndex(new BufferAttribute(triangles, 1));
  geometry.computeBoundingSphere();
  return geometry;
}

/** Frames round parts: their surfaces once more, a few pixels larger, seen from within. */
function createFraming(scene: Scene) {
  const size = { value: 0 };
  const made: { readonly mesh: InstancedMesh; readonly material: MeshBasicMaterial }[] = [];
  return {
    scaled: (metersAPixel: number) => {
      size.value = metersAPixel;
    },
    add: (geometry: BufferGeometry, turns: readonly number[], pixels: number, color: Color) => {
      if (turns.length === 0) return;
      const material = new MeshBasicMaterial({ side: BackSide });
      material.color = color;
      material.onBeforeCompile = (shader) => {
        shader.uniforms.metersAPixel = size;
        shader.vertexShader = `uniform float metersAPixel;\n${shader.vertexShader.replace(
          '#include <begin_vertex>',
          `vec3 transformed = position + normal * metersAPixel * float(${pixels});`,
        )}`;
      };
      // Shaders are kept by their source; this one depends on the width.
      material.customProgramCacheKey = () => `frame ${pixels}`;
      const mesh = new InstancedMesh(geometry, material, turns.length);
      stand(mesh, turns);
      scene.add(mesh);
      made.push({ mesh, material });
    },
    clear: () => {
      for (const { mesh, material } of made) {
        scene.remove(mesh);
        mesh.dispose();
        material.dispose();
      }
      made.length = 0;
    },
  };
}
