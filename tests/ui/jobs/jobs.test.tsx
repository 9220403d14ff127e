import { cleanup, fireEvent, screen, waitFor, within } from '@testing-library/react'
import { afterEach, beforeEach, describe, expect, test, vi } from 'vitest'
import { builds } from '../../../src/core/builds/index.ts'
import type { Progress } from '../../../src/core/facts.ts'
import { startShop } from '../../../src/core/shop-start.ts'
import { differences } from '../../../src/ui/jobs/differences.ts'
import { Jobs } from '../../../src/ui/jobs/jobs.tsx'
import { fakeApp, jobOf, show } from '../shell/fake-app.tsx'

beforeEach(() => {
  location.hash = ''
})
afterEach(cleanup)

const hexagon = { ...jobOf('polygon-frame', { size: 700 }), name: 'Hexagon' }

describe('a card', () => {
  test('shows the frame’s own drawing, what was asked, and that nothing is cut', () => {
    show(fakeApp([hexagon]), <Jobs />)
    const card = within(document.querySelector<HTMLElement>('.job-card')!)
    expect(document.querySelectorAll('.job-card .shape.member')).toHaveLength(6)
    expect(card.getByText('700 mm across flats')).toBeTruthy()
    expect(card.getByText('not begun')).toBeTruthy()
    expect(card.getByRole('link').getAttribute('href')).toBe('#/job/job-1/sizes')
  })

  test('says that it is begun when blanks are cut and no piece is finished: it said “not begun”', () => {
    const app = fakeApp([hexagon])
    const { progress } = app.store.getState()
    const blank = { job: hexagon.id, stage: 'blank' } as Progress['made'][number]
    app.store.setState({ progress: { ...progress, made: [blank, blank] } })
    show(app, <Jobs />)
    expect(screen.getByText('begun, 2 cuts made')).toBeTruthy()
  })

  test('of a job that cannot be built says so and shows the build', () => {
    show(fakeApp([jobOf('polygon-frame', { size: 10 })]), <Jobs />)
    expect(screen.getByText('its sizes cannot be built yet')).toBeTruthy()
    expect(document.querySelector('.job-card .build-picture')).toBeTruthy()
  })

  test('removes at once, without a question, and Undo brings it back as it was', async () => {
    const app = fakeApp([hexagon])
    show(app, <Jobs />)
    fireEvent.click(screen.getByRole('button', { name: 'Remove Hexagon' }))
    await screen.findByText(/Hexagon is off the list/)
    expect(app.store.getState().jobs).toEqual([])
    fireEvent.click(screen.getByRole('button', { name: 'Undo: bring Hexagon back' }))
    await waitFor(() => expect(app.store.getState().jobs).toEqual([hexagon]))
    expect(screen.queryByText(/off the list/)).toBeNull()
  })

  test('copies and goes to the copy', async () => {
    const app = fakeApp([hexagon])
    show(app, <Jobs />)
    fireEvent.click(screen.getByRole('button', { name: 'Copy Hexagon' }))
    await waitFor(() => expect(location.hash).toBe('#/job/copy/sizes'))
  })

  test('saves a file under the job’s name', () => {
    const app = fakeApp([hexagon])
    const made: { name: string; text: Blob }[] = []
    vi.spyOn(URL, 'createObjectURL').mockImplementation((blob) => {
      made.push({ name: '', text: blob as Blob })
      return 'blob:here'
    })
    const click = vi.spyOn(HTMLAnchorElement.prototype, 'click').mockImplementation(function (
      this: HTMLAnchorElement,
    ) {
      made[0]!.name = this.download
    })
    show(app, <Jobs />)
    fireEvent.click(screen.getByRole('button', { name: 'Save a file of Hexagon' }))
    expect(app.actions.fileOf).toHaveBeenCalledWith('job-1')
    expect(made[0]?.name).toBe('Hexagon.tube-job.json')
    click.mockRestore()
  })
})

describe('a new job', () => {
  test('is chosen by its picture, one for each build', async () => {
    const app = fakeApp()
    show(app, <Jobs />)
    const keys = screen.getAllByRole('button', { name: /^New job: / })
    expect(keys.map((key) => key.querySelector('strong')?.textContent)).toEqual(
      builds.map(({ title }) => title),
    )
    expect(new Set(keys.map((key) => key.querySelector('path')?.getAttribute('d'))).size).toBe(builds.length)
    fireEvent.click(screen.getByRole('button', { name: /^New job: Pedestal table/ }))
    await waitFor(() => expect(location.hash).toBe('#/job/new/sizes'))
    expect(app.actions.newJob).toHaveBeenCalledWith('pedestal')
  })

  test('on the first start the samples are offered, and open', async () => {
    const app = fakeApp([], startShop('mm'), { samples: ['Hexagon table top', 'Ten-sided pedestal'] })
    show(app, <Jobs />)
    fireEvent.click(screen.getByRole('button', { name: 'Ten-sided pedestal' }))
    await waitFor(() => expect(location.hash).toBe('#/job/sample/sizes'))
    expect(app.actions.openSample).toHaveBeenCalledWith(1)
  })
})

describe('a file', () => {
  const open = (text: string) =>
    fireEvent.change(screen.getByLabelText('Open a file', { selector: 'input' }), {
      target: { files: [new File([text], 'porch.json')] },
    })
  test('that is a job is opened', async () => {
    show(fakeApp(), <Jobs />)
    open(JSON.stringify({ job: { ...hexagon, id: 'porch' } }))
    await waitFor(() => expect(location.hash).toBe('#/job/porch/sizes'))
  })
  test('that is none is said by name, and nothing is changed', async () => {
    const app = fakeApp([hexagon])
    show(app, <Jobs />)
    open('{}')
    const alert = await screen.findByRole('alert')
    expect(alert.textContent).toBe('porch.json: This is no job file.Nothing was changed.')
    expect(app.store.getState().jobs).toEqual([hexagon])
  })
})

describe('two versions of one job', () => {
  const rival = {
    id: 'job-1',
    rev: 3,
    parent: null,
    device: 'other',
    body: {
      ...hexagon,
      quantity: 2,
      build: { ...hexagon.build, params: { ...hexagon.build.params, size: 750 } },
    },
  }
  test('stand side by side with what differs, and the other can be taken', () => {
    const app = fakeApp([hexagon], startShop('mm'), { rivals: [rival] })
    show(app, <Jobs />)
    const both = within(screen.getByRole('region', { name: 'Two versions of Hexagon' }))
    expect(both.getAllByText(/^size:/).map((line) => line.textContent)).toEqual(['size: 700', 'size: 750'])
    fireEvent.click(both.getByRole('button', { name: 'Take the other' }))
    expect(app.actions.settle).toHaveBeenCalledWith(rival)
  })
  test('the one on the list can be kept', () => {
    const app = fakeApp([hexagon], startShop('mm'), { rivals: [rival] })
    show(app, <Jobs />)
    fireEvent.click(screen.getByRole('button', { name: 'Keep this one' }))
    expect(app.actions.settle).toHaveBeenCalledWith({ ...rival, body: hexagon })
  })
})

test('rows that cannot be read are said, with how many', () => {
  const unread = [
    { store: 'jobs', key: 'x', why: 'It was written by a newer version.' },
    { store: 'facts', key: 'd:4', why: 'It is damaged.' },
  ]
  show(fakeApp([], startShop('mm'), { unread }), <Jobs />)
  expect(screen.getByText(/2 entries on this device cannot be read/)).toBeTruthy()
})

test('differences are named by path, equal parts left out', () => {
  expect(differences({ a: 1, b: { c: [1], d: 2 } }, { a: 1, b: { c: [2], d: 2 }, e: 'x' })).toEqual([
    { what: 'b, c', here: '[1]', there: '[2]' },
    { what: 'e', here: 'nothing', there: 'x' },
  ])
  expect(differences({ a: [1] }, { a: [1] })).toEqual([])
})
