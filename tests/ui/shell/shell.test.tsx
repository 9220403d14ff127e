import { act, cleanup, fireEvent, screen, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test } from 'vitest'
import { fold } from '../../../src/core/facts/fold.ts'
import type { BenchCut } from '../../../src/core/plan-shapes.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { Shell } from '../../../src/ui/shell/shell.tsx'
import { fakeApp, jobOf, noUpdates, show, viewOf } from './fake-app.tsx'

beforeEach(() => {
  location.hash = ''
})
afterEach(cleanup)

const goTo = (hash: string) =>
  act(() => {
    location.hash = hash
    window.dispatchEvent(new HashChangeEvent('hashchange'))
  })

/** The strip that has room for every station. */
const strip = () => within(document.querySelector<HTMLElement>('.all-stops')!)

describe('the strip of stations', () => {
  test('without a job has Jobs and Shop only', () => {
    show(fakeApp(), <Shell updates={noUpdates} />)
    expect(
      strip()
        .getAllByRole('link')
        .map((link) => link.textContent),
    ).toEqual(['Jobs', 'Shop'])
  })

  test('in a job has its stations in the order of the work, 12 of 24 cuts on Saw', () => {
    const job = jobOf('polygon-frame')
    const shop = startShop('mm')
    const cuts = Array.from({ length: 24 }, (_, at) => (at < 12 ? { done: `d:${at}` } : {})) as BenchCut[]
    const { steps } = viewOf(job, shop).plan!.weld
    const progress = { ...fold([]), ticked: { [`${job.id}/1/${steps[0]!.id}`]: 'd:9' } }
    const app = fakeApp([job], shop, { views: { [job.id]: { ...viewOf(job, shop), cuts } }, progress })
    location.hash = '#/job/job-1/sizes'
    show(app, <Shell updates={noUpdates} />)
    expect(
      strip()
        .getAllByRole('link')
        .map((link) => link.textContent),
    ).toEqual([
      'Jobs1',
      'Sizes',
      'Stock',
      'Saw12 of 24',
      'Fit-up',
      `Weld1 of ${steps.length}`,
      'Finish',
      'Paper',
      'Shop',
    ])
    expect(strip().getByRole('link', { current: 'page' }).textContent).toBe('Sizes')
  })

  test('counts no steps of a weld list that nobody has begun', () => {
    const job = jobOf('polygon-frame')
    location.hash = '#/job/job-1/sizes'
    show(fakeApp([job]), <Shell updates={noUpdates} />)
    expect(strip().getByRole('link', { name: /^Weld/ }).textContent).toBe('Weld')
  })

  test('keeps the job that was open while the shop is looked at', () => {
    show(fakeApp([jobOf('polygon-frame')]), <Shell updates={noUpdates} />)
    goTo('#/job/job-1/sizes')
    goTo('#/shop')
    expect(strip().getByRole('link', { name: /^Saw/ }).getAttribute('href')).toBe('#/job/job-1/saw')
  })

  test('on a narrow window lists the one before, this one, the next; a button lists all of them', () => {
    location.hash = '#/job/job-1/sizes'
    show(fakeApp([jobOf('polygon-frame')]), <Shell updates={noUpdates} />)
    const near = within(document.querySelector<HTMLElement>('.near-stops')!)
    expect(near.getAllByRole('link').map((link) => link.textContent)).toEqual(['Jobs1', 'Sizes', 'Stock'])
    expect(document.querySelector('.listed-stops')).toBeNull()
    fireEvent.click(near.getByRole('button', { name: 'All stations' }))
    expect(document.querySelectorAll('.listed-stops a')).toHaveLength(9)
  })
})

describe('what is said above every station', () => {
  test('a failed save stays until it is put away', () => {
    show(fakeApp([], startShop('in'), { trouble: 'The disk is full.' }), <Shell updates={noUpdates} />)
    expect(screen.getByRole('alert').textContent).toContain('The disk is full.')
    fireEvent.click(screen.getByRole('button', { name: 'I have read it' }))
    expect(screen.queryByText('The disk is full.')).toBeNull()
  })

  test('a new version waits and asks; nothing happens until it is accepted', () => {
    let accepted = 0
    const updates = {
      ...noUpdates,
      state: () => 'waiting' as const,
      accept: () => {
        accepted += 1
      },
    }
    show(fakeApp(), <Shell updates={updates} />)
    expect(screen.getByText('A new version is ready')).toBeTruthy()
    expect(accepted).toBe(0)
    fireEvent.click(screen.getByRole('button', { name: 'Use it now' }))
    expect(accepted).toBe(1)
  })
})

describe('where there is nothing to show', () => {
  test.each([
    ['#/job/gone/saw', 'This job is not on this device'],
    ['#/kitchen', 'Nothing stands at this address'],
  ])('%s says so, with a way back', (hash, heading) => {
    location.hash = hash
    show(fakeApp(), <Shell updates={noUpdates} />)
    expect(screen.getByRole('heading', { name: heading })).toBeTruthy()
    expect(screen.getByRole('link', { name: 'All jobs' }).getAttribute('href')).toBe('#/')
  })

  test('a disk that cannot be read is said, not a white page', () => {
    const app = fakeApp([], startShop('in'), { phase: 'failed', trouble: 'Private windows keep nothing.' })
    show(app, <Shell updates={noUpdates} />)
    expect(screen.getByRole('heading', { name: /cannot be opened now/ })).toBeTruthy()
    expect(screen.getAllByText(/Private windows keep nothing/).length).toBeGreaterThan(0)
  })
})

test('the daylight theme and the hand of the shop stand on the page', () => {
  const shop = { ...startShop('in'), daylight: true, hand: 'left' as const }
  show(fakeApp([], shop), <Shell updates={noUpdates} />)
  expect(document.documentElement.hasAttribute('data-daylight')).toBe(true)
  expect(document.documentElement.dataset.hand).toBe('left')
})
