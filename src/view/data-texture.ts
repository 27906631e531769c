import { DataTexture, NearestFilter, type PixelFormat, type PixelFormatGPU, type TextureDataType } from 'three';
import { TEXTURE_WIDTH } from './cloth-geometry.ts';

type Numbers = Float32Array | Uint32Array | Int8Array;

/** A texture of numbers, `size` entries a texel, whole rows of TEXTURE_WIDTH texels; read by texelFetch alone. */
export function numberTexture(numbers: Numbers, size: number, format: PixelFormat, type: TextureDataType, internal: PixelFormatGPU | null = null): DataTexture {
  const texture = new DataTexture(numbers, TEXTURE_WIDTH, numbers.length / size / TEXTURE_WIDTH, format, type);
  texture.minFilter = texture.magFilter = NearestFilter;
  texture.internalFormat = internal;
  texture.needsUpdate = true;
  return texture;
}
