import { expect, test } from 'vitest'
import { fold } from '../../src/core/facts/fold.ts'
import { type Death, dying, reopened } from '../app/killed.ts'
import { handShop, rows, type Tablet, tabletOn } from '../app/tablet.ts'
import { closeTabs, freshName } from '../storage/faulty.ts'
import { type Dice, dice, seed } from './seed.ts'

// A shop's day at random: jobs come and change, steel is bought and cut, tabs are killed in the middle of a write.

type Deed = readonly [name: string, run: (tablet: Tablet) => Promise<unknown>]

const square = { kind: 'square-tube', width: 40, height: 40, wall: 3, cornerRadius: 6 } as const

function someDeed(roll: Dice, tablet: Tablet): Deed {
  const { jobs, views, progress } = tablet.state()
  if (jobs.length === 0 || (jobs.length < 3 && roll() < 0.1))
    return ['new job', ({ actions }) => actions.newJob(roll.pick(['cut-list', 'polygon-frame']))]
  const job = roll.pick(jobs)
  const view = views[job.id]
  const open =
    view?.cuts.filter(({ done, parent, loaded, stick }) => !done && (parent || loaded === stick)) ?? []
  const stick = `S${roll.whole(1, 2)}`
  const racks = progress.rack.map(({ id }) => id)
  const deeds: Deed[] = [
    ['quantity', ({ actions }) => actions.editJob(job.id, { quantity: roll.whole(1, 3) })],
    [
      'rows',
      ({ actions }) =>
        actions.editParams(job.id, { rows: rows([roll.whole(1, 4), roll.whole(3, 8) * 100, 45, 45]) }),
    ],
    ['undo', ({ actions }) => actions.undo(job.id)],
    ['keep drop', ({ actions }) => actions.keepDrop(job.id, stick, roll.whole(300, 2000))],
    ['bought', ({ actions }) => actions.bought(square, 6000, roll.whole(1, 3))],
    ['tick', ({ actions }) => actions.tick(job.id, 1, `step-${roll.whole(1, 3)}`, 'tacked')],
    ['plan rest', ({ actions }) => actions.planRest(job.id)],
    ['accept rest', ({ actions }) => actions.acceptRest(job.id)],
    ['real stick', ({ actions }) => actions.load(job.id, stick, roll.whole(5900, 6100), ['mill', 'mill'])],
    ['scrap', ({ actions }) => actions.scrap(job.id, stick)],
    ['cut apart', ({ actions }) => actions.cutApart(job.id, 1)],
    ['accept', ({ actions }) => actions.accept(job.id)],
    ['file', ({ actions }) => actions.openFile(actions.fileOf(job.id))],
  ]
  if (racks.length > 0)
    deeds.push(['correct', ({ actions }) => actions.correct(roll.pick(racks), roll.whole(300, 6000))])
  const wrong = { why: 'too short', left: roll.whole(0, 300), ends: ['cut', 'cut'] } as const
  const piece = progress.made.find((one) => one.job === job.id && !one.used)
  if (open.length > 0)
    deeds.push(['miscut', ({ actions }) => actions.miscut(job.id, { ...wrong, of: { cut: open[0]! } })])
  if (piece)
    deeds.push([
      'miscut of a piece',
      ({ actions }) => actions.miscut(job.id, { ...wrong, of: { piece: piece.id } }),
    ])
  if (jobs.length > 2) deeds.push(['remove', ({ actions }) => actions.removeJob(job.id)])
  // Mostly, steel is cut.
  if (open.length > 0 && roll() < 0.7) return ['cut', ({ actions }) => actions.cut(job.id, open[0]!)]
  return roll.pick(deeds)
}

/** Shows a job and gives its nest a moment; whether there is one in the end does not matter here. */
async function settle(tablet: Tablet, roll: Dice): Promise<void> {
  const { jobs } = tablet.state()
  if (jobs.length === 0) return
  tablet.actions.show(roll.pick(jobs).id)
  await new Promise((resolve) => setTimeout(resolve, 6))
}

const days = 25
const deedsPerDay = 40

test(`${days} days of ${deedsPerDay} deeds with kills: nothing shown is lost, nothing is half there (seed ${seed})`, async () => {
  const roll = dice('kills')
  let kills = 0
  let facts = 0
  let cuts = 0
  for (let day = 0; day < days; day++) {
    const name = freshName()
    let tablet = tabletOn(name)
    await tablet.actions.open()
    await tablet.actions.saveShop(handShop)
    for (let at = 0; at < deedsPerDay; at++) {
      await settle(tablet, roll)
      const [what, run] = someDeed(roll, tablet)
      const say = `seed ${seed}, day ${day}, deed ${at}: ${what}`
      if (roll() < 0.75) {
        await run(tablet)
        expect(tablet.state().progress, say).toEqual(fold(tablet.state().facts))
        continue
      }
      kills += 1
      const death: Death =
        roll() < 0.25
          ? 'unheard'
          : { at: roll.whole(0, 5), how: roll.pick(['throw', 'abort', 'no room'] as const) }
      const shown = await dying(tablet, death, () => run(tablet))
      tablet = await reopened(name, shown, `${say}, ${JSON.stringify(death)}`)
    }
    const last = await reopened(name, tablet.state(), `seed ${seed}, end of day ${day}`)
    expect(last.state().progress).toEqual(tablet.state().progress)
    facts += last.state().facts.length
    cuts += last.state().facts.filter(({ kind }) => kind === 'cut').length
    await closeTabs()
  }
  expect(cuts).toBeGreaterThan(days)
  process.stdout.write(`kills: ${days} days, ${kills} kills, ${facts} facts, ${cuts} cuts, seed ${seed}\n`)
})
