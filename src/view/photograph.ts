import { Color, type Mesh, type WebGLRenderer } from 'three';
import type { Rgb } from './colour.ts';
import type { Ground } from './sock-view-types.ts';

/** Backgrounds against which a picture without a ground is taken. */
const BLACK = new Color(0, 0, 0), WHITE = new Color(1, 1, 1);

export interface Camera {
  readonly canvas: HTMLCanvasElement;
  readonly renderer: WebGLRenderer;
  readonly backdrop: Mesh;
  /** Of a plain ground, linear. */
  readonly plain: Rgb;
  readonly draw: () => void;
}

/** Draws at once and reads the picture back, in one go: what is drawn on a canvas is gone with the frame. */
export function photograph(camera: Camera, ground: Ground): ImageData | null {
  const { renderer, backdrop, plain } = camera, clear = renderer.getClearColor(new Color()), alpha = renderer.getClearAlpha();
  const against = (colour: Color): ImageData | null => {
    renderer.setClearColor(colour, 1);
    return shoot(camera);
  };
  if (ground === 'themed') return shoot(camera);
  backdrop.visible = false;
  try {
    if (ground === 'plain') return against(new Color(...plain));
    const onBlack = against(BLACK), onWhite = against(WHITE);
    return onBlack === null || onWhite === null ? null : liftOff(onBlack, onWhite);
  } finally {
    backdrop.visible = true;
    renderer.setClearColor(clear, alpha);
  }
}

function shoot({ canvas, draw }: Camera): ImageData | null {
  draw();
  const copy = document.createElement('canvas');
  copy.width = canvas.width;
  copy.height = canvas.height;
  const context = copy.getContext('2d', { willReadFrequently: true });
  context?.drawImage(canvas, 0, 0);
  return context?.getImageData(0, 0, copy.width, copy.height) ?? null;
}

/**
 * What stands before both grounds, and how far it covers them: of a colour f that covers by a, black
 * shows a f and white a f + (1 - a). A shadow stays, as black that covers a little. Changes `onBlack`.
 */
function liftOff(onBlack: ImageData, onWhite: ImageData): ImageData {
  const black = onBlack.data, white = onWhite.data;
  for (let i = 0; i < black.length; i += 4) {
    const shown = (white[i] - black[i] + white[i + 1] - black[i + 1] + white[i + 2] - black[i + 2]) / 3;
    const cover = Math.min(1, Math.max(0, 1 - shown / 255));
    for (let d = 0; d < 3; d++) black[i + d] = cover > 0 ? black[i + d] / cover : 0;
    black[i + 3] = 255 * cover;
  }
  return onBlack;
}
