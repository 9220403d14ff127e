import type { AppState } from './state.ts'

/** disk: written before it is shown, and there again after a kill. memory: gone with the tab. derived: never stored. */
export type Where = 'disk' | 'memory' | 'derived'

/** Where each key of the state is kept, and by what. */
export const KEPT: {
  readonly [K in keyof Required<AppState>]: { readonly where: Where; readonly by: string }
} = {
  phase: { where: 'memory', by: 'how far the first read is' },
  trouble: { where: 'memory', by: 'the last failure; what failed was not done' },
  device: { where: 'disk', by: 'the head of the log, made once' },
  shop: { where: 'disk', by: 'its newest revision; until one is saved, what a new shop starts with' },
  jobs: { where: 'disk', by: 'the newest revision of each' },
  views: {
    where: 'derived',
    by: 'plan() from job, shop, nest and progress; candidate nests are memory only',
  },
  progress: { where: 'derived', by: 'fold() from facts' },
  facts: { where: 'disk', by: 'a row for each fact' },
  rivals: { where: 'disk', by: 'a row for each second version, until the person chooses' },
  unread: { where: 'disk', by: 'the rows themselves, left as they are' },
  shopLost: { where: 'derived', by: 'unread, until a shop is saved' },
  samples: { where: 'memory', by: 'what the program brings along' },
  backup: { where: 'disk', by: 'a row beside the head of the log' },
  room: { where: 'memory', by: 'what the browser answered last' },
  compared: { where: 'memory', by: 'what the person asked the worker for; nobody works by it' },
  ways: { where: 'memory', by: 'what the person asked the worker for; the way chosen is in the job' },
  flash: { where: 'memory', by: 'counts the writes of this tab' },
}
