/** Advice that goes with every sock, whatever its numbers. */
export interface CareNote {
  readonly about: 'wearing' | 'floors' | 'machine' | 'numbers';
  readonly text: string;
}

/**
 * Notes of care in general terms: patient guidance as published, the trade's common sense at the
 * machine, and what the numbers do not know. They give no medical advice and name no pressure.
 */
export function careNotes(): readonly CareNote[] {
  return [
    { about: 'wearing', text: 'With swelling, numb feet, diabetes or poor circulation, avoid tight tops, and ridges or loose folds at the toes, and ask a clinician what to wear.' },
    { about: 'wearing', text: 'A sock that leaves deep marks is too tight: take it off and knit a wider one. This is no compression sock.' },
    { about: 'floors', text: 'Socks without shoes slip on smooth floors; grips on the sole help.' },
    { about: 'machine', text: 'Needle hooks and latches are sharp. Hang weights where they cannot fall on feet, keep fingers clear of the carriage, and children beside you.' },
    { about: 'numbers', text: 'Sizes hold for the gauge given, after washing: knit a swatch, wash it, let it rest, and count. Foot statistics behind them come from working adults only.' },
  ];
}
