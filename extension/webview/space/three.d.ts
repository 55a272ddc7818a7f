// What is used of three.js, which comes without types.
declare module 'three' {
  export class Vector2 {
    constructor(x?: number, y?: number);
  }
  export class Vector3 {
    constructor(x?: number, y?: number, z?: number);
    x: number;
    y: number;
    z: number;
    set(x: number, y: number, z: number): this;
    project(camera: OrthographicCamera): this;
  }
  export class Color {
    constructor(red?: number, green?: number, blue?: number);
    /** Channels from 0 to 1, as on a screen. */
    setRGB(red: number, green: number, blue: number, colorSpace: string): this;
    lerp(color: Color, share: number): this;
    clone(): Color;
  }
  export class Matrix4 {
    makeRotationZ(angle: number): this;
  }
  export class BufferAttribute {
    constructor(array: ArrayLike<number> & ArrayBufferView, itemSize: number, normalized?: boolean);
    needsUpdate: boolean;
  }
  export class BufferGeometry {
    setAttribute(name: string, attribute: BufferAttribute): this;
    setIndex(attribute: BufferAttribute): this;
    computeBoundingSphere(): void;
    dispose(): void;
  }
  export class Object3D {
    visible: boolean;
    renderOrder: number;
    matrixAutoUpdate: boolean;
    frustumCulled: boolean;
    readonly position: Vector3;
    readonly up: Vector3;
    add(...children: Object3D[]): this;
    remove(...children: Object3D[]): this;
    lookAt(x: number, y: number, z: number): void;
    updateMatrixWorld(force?: boolean): void;
  }
  export class Scene extends Object3D {}
  export class OrthographicCamera extends Object3D {
    left: number;
    right: number;
    top: number;
    bottom: number;
    near: number;
    far: number;
    updateProjectionMatrix(): void;
  }
  export class AmbientLight extends Object3D {
    constructor(color?: number, intensity?: number);
  }
  export class DirectionalLight extends Object3D {
    constructor(color?: number, intensity?: number);
  }
  export interface MaterialOptions {
    readonly vertexColors?: boolean;
    readonly transparent?: boolean;
    readonly opacity?: number;
    readonly depthWrite?: boolean;
    readonly side?: number;
  }
  export interface Shader {
    readonly uniforms: Record<string, { value: unknown }>;
    vertexShader: string;
  }
  export class Material {
    color: Color;
    onBeforeCompile: (shader: Shader) => void;
    customProgramCacheKey: () => string;
    dispose(): void;
  }
  export class MeshLambertMaterial extends Material {
    constructor(options?: MaterialOptions);
  }
  export class MeshBasicMaterial extends Material {
    constructor(options?: MaterialOptions);
  }
  export class Mesh extends Object3D {
    constructor(geometry: BufferGeometry, material: Material);
    geometry: BufferGeometry;
  }
  export class InstancedMesh extends Mesh {
    constructor(geometry: BufferGeometry, material: Material, count: number);
    instanceColor: BufferAttribute | null;
    setMatrixAt(index: number, matrix: Matrix4): void;
    setColorAt(index: number, color: Color): void;
    dispose(): void;
  }
  export interface Intersection {
    readonly distance: number;
    readonly object: Object3D;
    readonly instanceId?: number;
  }
  export class Raycaster {
    readonly ray: { readonly origin: Vector3; readonly direction: Vector3 };
    setFromCamera(at: Vector2, camera: OrthographicCamera): void;
    intersectObjects(objects: readonly Object3D[], recursive?: boolean): Intersection[];
  }
  export class WebGLRenderer {
    constructor(options: {
      readonly canvas: HTMLCanvasElement;
      readonly antialias?: boolean;
      readonly alpha?: boolean;
    });
    readonly info: { readonly render: { readonly calls: number; readonly triangles: number } };
    setPixelRatio(ratio: number): void;
    setSize(width: number, height: number, updateStyle?: boolean): void;
    setClearAlpha(alpha: number): void;
    render(scene: Scene, camera: OrthographicCamera): void;
    dispose(): void;
  }
  export const BackSide: number;
  export const SRGBColorSpace: string;
}
