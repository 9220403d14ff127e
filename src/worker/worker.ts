import address from 'highs/runtime?url'
import { openWholeSolver } from '../nest/whole-solver.ts'
import { answer } from './answer.ts'
import type { Solve } from './protocol.ts'

// The nest, off the main thread. One request at a time; it is stopped by ending the worker.

self.addEventListener('message', ({ data }: MessageEvent<Solve>) => {
  const until = performance.now() + data.budget.seconds * 1000
  void answer(
    data,
    () => performance.now() > until,
    (said) => self.postMessage(said),
    async () => (await openWholeSolver(address))(() => (until - performance.now()) / 1000),
  )
})
