import type { DifferenceMap } from '../choose/comparison.ts';
import { mapDifference } from '../choose/map-difference.ts';
import { otherName } from '../panel/compared-words.ts';
import type { PageState } from '../panel/page-state.ts';
import { pageWords } from '../words/page-words.ts';
import type { PoseName } from '../shape/pose.ts';
import type { PageStore } from './page-store.ts';
import type { SockPicture } from './sock-picture.ts';

/**
 * Puts the second sock into the picture as soon as it has come to rest, and tells the page how the two
 * differ, place by place. Until then an older shape of it stays, as long as the first is in that pose too.
 */
export function createCompanionPicture(store: PageStore, picture: SockPicture | null): { render(state: PageState): void } {
  let shown: readonly unknown[] = [], measured: readonly unknown[] = [], shownPose: PoseName | null = null;
  let difference: DifferenceMap | null = null;
  const measure = (state: PageState): void => {
    const { companion, posed } = state;
    // While either relaxes the last numbers hold.
    if (companion !== null && (posed === null || companion.shape.kind === 'relaxing')) return;
    const now = [posed, companion?.posed];
    if (!isNews(measured, now)) return;
    measured = now;
    difference = findDifference(state);
    // Told after this round of drawing, in which the others have still the old state.
    if (difference !== (state.difference ?? null)) queueMicrotask(() => { store.update({ difference }); });
  };
  return {
    render: (state) => {
      measure(state);
      const { companion, planned, settings: { arrangement } } = state, label = otherName(companion?.name ?? '', planned?.plan.name), sock = companion?.knitted ?? null, posed = companion?.posed ?? null;
      const isUnderWay = companion?.shape.kind === 'relaxing', isInPose = shownPose === (state.posed?.pose.name ?? shownPose);
      const next = [sock, posed, arrangement, difference, label];
      if (!isNews(shown, next) || (isUnderWay && isInPose)) return;
      shown = next;
      shownPose = posed?.pose.name ?? null;
      picture?.setSecond(sock === null || posed === null || companion === null ? null : { sock, posed, difference, label, firstLabel: pageWords().compare.thisSock }, arrangement);
    },
  };
}

function isNews(before: readonly unknown[], now: readonly unknown[]): boolean {
  return now.some((part, place) => part !== before[place]);
}

/** On the beds cloth is drawn wide by its needles, and not measured. */
function findDifference({ knitted, posed: first, companion }: PageState): DifferenceMap | null {
  const other = companion?.knitted ?? null, second = companion?.posed ?? null;
  if (knitted === null || first === null || other === null || second === null || first.part !== null || second.part !== null || first.pose.name !== second.pose.name) return null;
  return mapDifference({ fabric: knitted.fabric, positions: first.pose.positions }, { fabric: other.fabric, positions: second.pose.positions });
}
