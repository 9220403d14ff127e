import { fireEvent, screen } from '@testing-library/react'
import { expect, test } from 'vitest'
import { Saw } from '../../../src/ui/saw/saw.tsx'
import { shop } from './bench-run.ts'
import { fakeApp, noProgress, viewWith } from './fake-app.tsx'

const saw = shop.saws[0]!
const first = saw.blades.find(({ id }) => id === saw.blade)!
const coarse = { id: 'coarse', name: 'Coarse', kerf: 4 }
const both = { ...shop, saws: [{ ...saw, blades: [...saw.blades, coarse] }] }
const open = (...given: Parameters<typeof fakeApp>) => {
  const app = fakeApp(...given)
  app.put((view) => <Saw view={view} />)
  return app
}

test('another blade is chosen by its name and kerf, with what must be done before the next cut', () => {
  const app = open(viewWith(), { shop: both })
  const details = document.querySelector('.other-blade')!
  expect(details.querySelector('summary')!.textContent).toBe(`Another blade on ${saw.name}?`)
  expect(details.textContent).toContain(`On now: ${first.name}, kerf ${first.kerf} mm.`)
  expect(details.textContent).toContain('set the zero of the stop anew')
  expect(details.textContent).toContain('planned anew with the new kerf')
  fireEvent.click(screen.getByText('Coarse is on now, kerf 4.0 mm'))
  expect(app.actions.changeBlade).toHaveBeenCalledWith('job-1', saw.id, 'coarse')
})

test('in inches a kerf of 4 mm is 0.157 in, not a fraction of the tape', () => {
  open(viewWith(), { shop: { ...both, reading: { kind: 'inch-fraction', denominator: 16 } } })
  // 4 / 25.4 = 0.15748 (the international inch is 25.4 mm).
  expect(screen.getByText(/^Coarse is on now, kerf 0\.157/)).toBeTruthy()
})

test('a saw with one blade says where another is put in', () => {
  open(viewWith(), { shop: { ...shop, saws: [{ ...saw, blades: [first] }] } })
  expect(screen.getByText('Add it in Shop').getAttribute('href')).toBe('#/shop')
})

test('with another blade on, its zero is asked for, at the bench and where the rest is to be planned', () => {
  const progress = { ...noProgress, blades: { [saw.id]: { blade: 'coarse', kerf: 4 } } }
  const says = `Coarse is on ${saw.name}, kerf 4.0 mm. Is the zero of the stop set for it?`
  open(viewWith(), { shop: both, progress })
  expect(screen.getByText(new RegExp(says.replaceAll('.', '\\.').replace('?', '\\?')))).toBeTruthy()
  expect(screen.getByText(new RegExp(`^${first.name} is on now`))).toBeTruthy()
  expect(screen.queryByText(/^Coarse is on now/)).toBeNull()
})

test('the same stands where the rest is to be planned', () => {
  const progress = { ...noProgress, blades: { [saw.id]: { blade: 'coarse', kerf: 4 } } }
  open(viewWith({ nesting: { state: 'accepted', rest: true } }), { shop: both, progress })
  expect(screen.getByText(/^Coarse is on .*Is the zero of the stop set for it/)).toBeTruthy()
})
