import shared from '../../shaders/_shared.glsl?raw';

/** A shader's text with the shared part in front, for three's RawShaderMaterial in GLSL 3. */
export function shaderText(...parts: readonly string[]): string {
  return [shared, ...parts].join('\n');
}
