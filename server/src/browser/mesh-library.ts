/** The mesh library in a browser: started from its bytes. */
import type { Kernel } from '../geometry/mesh/handles';

export async function startMeshLibrary(bytes: ArrayBuffer): Promise<Kernel> {
  const { default: library } = await import('manifold-3d');
  // It asks where its file is, and then does not need it.
  const options = { wasmBinary: bytes, locateFile: (name: string) => name };
  const made = await (library as (options: object) => ReturnType<typeof library>)(options);
  made.setup();
  return made;
}
