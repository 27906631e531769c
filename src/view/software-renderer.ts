import type { WebGLRenderer } from 'three';

/** Whether the picture is computed without a graphics card. */
export function isSoftware(renderer: WebGLRenderer): boolean {
  const gl = renderer.getContext();
  const info = gl.getExtension('WEBGL_debug_renderer_info');
  const name: unknown = gl.getParameter(info ? info.UNMASKED_RENDERER_WEBGL : gl.RENDERER);
  return /swiftshader|llvmpipe|software|basic render/i.test(String(name));
}
