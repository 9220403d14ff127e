// `node scripts/run.mjs tests/bench/nest-run.ts [most of each class] [class]`: part of `npm run bench`. Prints what was
// measured and keeps it under node_modules/.cache, where scripts/nest-figures.mjs takes it from for docs/nest.md.
import { mkdirSync, writeFileSync } from 'node:fs'
import { cpus } from 'node:os'
import { classes, shopClasses } from '../nest/classes.ts'
import { type ClassFigures, classFigures } from './nest-classes.ts'
import { growths } from './nest-growth.ts'
import { sideBySide } from './nest-side-by-side.ts'

const [most = '1000', which = ''] = process.argv.slice(2)

const found: ClassFigures[] = []
for (const each of [...shopClasses, ...classes]) {
  if (!each.name.startsWith(which)) continue
  const figures = await classFigures(each, Number(most))
  found.push(figures)
  const { name, runs, proved, within1, sticksProved, median, p95 } = figures
  console.log(
    `${name}: ${proved} of ${runs} proved, ${within1} within 1 s, sticks ${sticksProved}; median ${median} ms, p95 ${p95}, most ${figures.most}`,
  )
}
if (which === '') {
  const growth = await growths()
  for (const { parts, lengths, ms, proved } of [...growth.byParts, ...growth.byLengths])
    console.log(`${parts} parts of ${lengths} lengths: ${ms} ms, ${proved} of 3 proved`)
  const side = await sideBySide()
  for (const { name, pieces, firstFit, assignment, ours } of side)
    console.log(
      `${name}, ${pieces} pieces: first fit ${firstFit.sticks}/${firstFit.cost}, assignment ${assignment?.sticks}/${assignment?.cost}, ours ${ours.sticks}/${ours.cost}`,
    )
  const folder = 'node_modules/.cache/longpoint'
  mkdirSync(folder, { recursive: true })
  const machine = `${cpus().length} cores of ${cpus()[0]?.model.trim()}, Node ${process.versions.node}`
  const when = new Date().toISOString().slice(0, 10)
  writeFileSync(
    `${folder}/nest-bench.json`,
    JSON.stringify({ when, machine, most: Number(most), classes: found, growth, side }, null, 1),
  )
}
