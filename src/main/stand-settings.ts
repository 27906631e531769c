/** How bright the room is; all keep at least 4.5 to 1, bright and dim 7 to 1. */
export type StandLight = 'bright' | 'dim' | 'night';
export const LIGHTS: readonly StandLight[] = ['bright', 'dim', 'night'];

/** What a person has chosen for the stand: kept apart from the page's own settings. */
export interface StandSettings {
  readonly voice: boolean;
  readonly tone: boolean;
  readonly light: StandLight;
  /** Keys learned from a pedal, as `pedalKey` names them. */
  readonly forwardKey: string | null;
  readonly backKey: string | null;
}

/** Whatever is not understood falls back to the first ones. */
export function readStandSettings(text: string | null): StandSettings {
  let kept: Partial<Record<keyof StandSettings, unknown>> = {};
  try { kept = Object(JSON.parse(text ?? '{}')) as typeof kept; } catch { /* Told nowhere: only choices are lost. */ }
  const key = (value: unknown): string | null => (typeof value === 'string' && value !== '' && value.length <= 40 ? value : null);
  return {
    voice: kept.voice === true, tone: kept.tone === true, light: LIGHTS.find((light) => light === kept.light) ?? 'bright',
    forwardKey: key(kept.forwardKey), backKey: key(kept.backKey),
  };
}
