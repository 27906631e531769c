import type { Side } from '../plan/step.ts';

const sides: Readonly<Record<Side, string>> = { left: 'left', right: 'right' };
const loops = (count: number, wraps: number): string =>
  [count === 1 ? 'loop' : `${count} loops`, ...(wraps === 0 ? [] : [wraps === 1 ? 'wrap' : `${wraps} wraps`])].join(' and ');
const isMany = (count: number, wraps: number): boolean => count + wraps > 1;

/** The close-up of a few needles in the room of passes. A needle comes as its name in the sentence: `Needle L3`. */
export const CLOSE_EN = {
  open: 'Close-up',
  openHelp: 'A few needles from near: how each loop of this pass is drawn through another',
  name: 'Close-up of this pass',
  title: (first: string, last: string, bed: string) => `Needles ${first} to ${last}, ${bed}`,
  bothBeds: 'both beds',
  close: 'Close the close-up',
  large: { name: 'Large close-up', isOn: 'All of the page again', isOff: 'The close-up alone, for a projector' },
  picture: 'Needles and yarn from near. Arrow keys turn the picture.',
  slider: 'Through this pass',
  percent: (percent: number) => `${percent} %`,
  play: 'Play the close-up',
  pause: 'Pause the close-up',
  back: 'A step back',
  step: 'A step on',
  nextNeedle: 'Next needle',
  needlesLeft: 'Needles further left',
  needlesRight: 'Needles further right',
  from: 'Seen',
  sides: { knitter: 'from in front', along: 'along the bed', behind: 'from behind' },
  pale: 'In full colour: the yarn of this pass; a little toned down: what it is drawn through now; more: all that was knitted before. Drawn slower and farther apart than at the machine, where some needles are on their way at once.',
  noPass: 'Nothing is drawn through another loop here. Step on to a pass to see it from near.',
  noPicture: 'The browser gives no picture here (WebGL 2 is missing). The words tell it step by step all the same.',
  lost: 'The picture has been taken away by the graphics system and comes back when it can.',
  needle: (label: string) => `Needle ${label}`,
  needleOn: (label: string, bed: string) => `Needle ${label}, ${bed}`,
  told: {
    rest: (needle: string, count: number, wraps: number, from: Side) =>
      `${needle}: its ${loops(count, wraps)} ${isMany(count, wraps) ? 'hang' : 'hangs'} in the hook. The carriage comes from the ${sides[from]}.`,
    clear: (needle: string, count: number, wraps: number) =>
      `${needle} goes forward: its old ${loops(count, wraps)} ${isMany(count, wraps) ? 'open' : 'opens'} the latch and ${isMany(count, wraps) ? 'slide' : 'slides'} down behind it, onto the stem.`,
    feed: (needle: string) => `${needle} stands forward with its hook open: the carriage lays the new yarn over it.`,
    close: (needle: string, count: number, wraps: number) =>
      `${needle} draws back: the hook takes the new yarn, and the old ${loops(count, wraps)} ${isMany(count, wraps) ? 'swing' : 'swings'} the latch shut over it.`,
    'cast-off': (needle: string, count: number, wraps: number) =>
      `${needle}: the old ${loops(count, wraps)} ${isMany(count, wraps) ? 'slide' : 'slides'} over the closed latch and off the hook; the new loop goes through ${isMany(count, wraps) ? 'all of them' : 'it'}.`,
    draw: (needle: string, count: number, wraps: number) =>
      `${needle} has drawn the new loop through the old ${loops(count, wraps)}; how deep it draws sets how long the loop is.`,
    done: (needle: string, count: number, wraps: number) =>
      `${needle}: the new loop hangs in the hook, and the old ${loops(count, wraps)} ${isMany(count, wraps) ? 'lie' : 'lies'} round its feet: a row more of fabric.`,
    held: (needle: string, count: number, wraps: number) =>
      `${needle} is held: it stays forward with its ${loops(count, wraps)} and does not knit as the carriage goes by.`,
    idle: (needle: string) => `${needle} does not knit in this pass.`,
    wrap: (needle: string) => `${needle} is held, and now wrapped: the yarn is laid forward round its hook, under its stem and up. The next pass closes it round the stem.`,
    wrapped: (needle: string) => `${needle} is held and wrapped: its loop and the wrap wait on the stem until it knits again.`,
  },
};
