import type { Problem } from '../base/problem.ts';
import type { Notice, PageState } from '../panel/page-state.ts';
import type { SockFile } from '../plan/sock-file.ts';

/** Holds the page's state and draws it again after every change. */
export interface PageStore {
  state(): PageState;
  update(change: Partial<PageState>): void;
  /** Puts a notice up, in place of an earlier one of its kind; of a change of the sock, with buttons to undo it and to compare. */
  tell(id: Notice['id'], title: string, problems: readonly Problem[] | string, change?: { readonly before: SockFile }): void;
  /** Puts a notice up with a button of its own. */
  offer(id: Notice['id'], title: string, what: string, act: NonNullable<Notice['act']>): void;
  withdraw(id: Notice['id']): void;
}

export function createStore(first: PageState, render: (state: PageState) => void): PageStore {
  let state = first;
  const update = (change: Partial<PageState>): void => {
    state = { ...state, ...change };
    render(state);
  };
  const put = (notice: Notice): void => { update({ notices: [...state.notices.filter(({ id }) => id !== notice.id), notice] }); };
  return {
    state: () => state,
    update,
    tell: (id, title, told, change) => {
      const problems = typeof told === 'string' ? [says(told)] : told;
      put({ id, title, problems, ...(change === undefined ? {} : { canUndo: true, ...change }) });
    },
    offer: (id, title, what, act) => { put({ id, title, problems: [says(what)], act }); },
    withdraw: (id) => {
      const notices = state.notices.filter((notice) => notice.id !== id);
      if (notices.length < state.notices.length) update({ notices });
    },
  };
}

function says(message: string): Problem {
  return { field: null, value: null, allowed: null, message };
}
