import { showLength } from '../../core/reading/show.ts'
import { habitsOf, toleranceOf } from '../../core/saw/first-piece.ts'
import { Choice, Flag } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import { NumberField } from '../fields/number-field.tsx'
import { capital, fine, saysOf } from '../words.ts'
import type { ShopPart } from './shop.tsx'

/** What another way of cutting must save: money where steel has a price here, else steel. */
function OtherWay({ shop, change }: Pick<ShopPart, 'shop' | 'change'>) {
  const says = saysOf(shop)
  const saves = shop.otherWaySaves
  const set = (value: number | undefined) => change({ otherWaySaves: value })
  const priced = shop.sections.some(
    ({ rate, stock }) => rate !== undefined || stock.some(({ price }) => price !== undefined),
  )
  const hint = `Jobs are cut square first. Another way is proposed when it saves a ${says.stick}, or as much as this. Empty: only for a ${says.stick}.`
  const label = 'Another way of cutting is proposed when it saves at least'
  return priced ? (
    <NumberField
      label={`${label}, ${shop.currency}`}
      hint={hint}
      optional
      value={saves === undefined ? undefined : saves / 100}
      onChange={(money) => set(money === undefined ? undefined : Math.round(money * 100))}
    />
  ) : (
    <MmField
      label={`${label} this much steel`}
      hint={hint}
      optional
      value={saves === undefined ? undefined : showLength(saves, shop.reading).mm}
      reading={shop.reading}
      onChange={(mm) => set(mm === undefined ? undefined : Math.round(mm))}
    />
  )
}

/** How this shop works: allowances, what is kept, how parts are tacked. */
export function Habits({ shop, change }: ShopPart) {
  const { habitsOff: off = [] } = shop
  return (
    <section className="shop-part" aria-labelledby="habits-head">
      <h2 id="habits-head">Ways of working</h2>
      <div className="shop-fields">
        <MmField
          label="Blank allowance"
          hint="Added to each square blank that is mitered afterward, so that the blade does not feather the corner. 0 for none: then both ends need one stop only."
          value={shop.blankAllowance}
          reading={shop.reading}
          onChange={(mm) => mm !== undefined && change({ blankAllowance: mm })}
        />
        <MmField
          label={`Least ${shop.says === 'stick and drop' ? 'drop' : 'offcut'} worth keeping`}
          value={shop.leastDrop}
          reading={shop.reading}
          onChange={(mm) => mm !== undefined && change({ leastDrop: mm })}
        />
        <MmField
          label="Root gap at every joint"
          hint="A miter gives half of it on each part, a butt all of it on the part that stops."
          value={shop.rootGap}
          reading={shop.reading}
          possible={{ most: 10 }}
          onChange={(mm) => mm !== undefined && change({ rootGap: mm })}
        />
        <Choice
          label="The long side of a mitered piece lies"
          hint="At the fence the pointed end cannot slip past the stop so easily."
          options={[
            { value: 'fence', label: 'at the fence' },
            { value: 'outward', label: 'outward' },
          ]}
          value={shop.longSide}
          onChange={(longSide) => change({ longSide })}
        />
        <Choice
          label="Parts are tacked"
          options={[
            { value: 'in a jig', label: 'in a jig, all clamped' },
            { value: 'piece by piece', label: 'piece by piece' },
            { value: 'half rings', label: 'two half rings, joined last' },
          ]}
          value={shop.tacking}
          onChange={(tacking) => change({ tacking })}
        />
        <Choice
          label="A frame is welded"
          options={[
            { value: 'upright first', label: 'upright corners, tops, turn, bottoms' },
            { value: 'inside last', label: 'the same, inside corners last' },
            { value: 'balanced', label: 'half the tops, turn, bottoms, turn, other tops' },
          ]}
          value={shop.passes ?? 'upright first'}
          onChange={(passes) => change({ passes })}
        />
        <MmField
          label="A first piece may be off by"
          hint="Beyond it the stop is corrected. Half of what the tape is read to, until you say otherwise."
          value={toleranceOf(shop)}
          reading={fine(shop.reading)}
          possible={{ over: 0, most: 10 }}
          onChange={(mm) => mm !== undefined && change({ tolerance: mm })}
        />
        <OtherWay shop={shop} change={change} />
      </div>
      <fieldset className="group">
        <legend>Said at every set-up</legend>
        {habitsOf({ ...shop, habitsOff: [] }).map(({ habit, text }) => (
          <Flag
            key={habit}
            label={capital(text)}
            value={!off.includes(habit)}
            onChange={(said) =>
              change({ habitsOff: said ? off.filter((one) => one !== habit) : [...off, habit] })
            }
          />
        ))}
        <Choice
          label="Pieces are marked with"
          options={[
            { value: 'paint pen', label: 'a paint pen' },
            { value: 'scribe or stamp', label: 'scribe or stamp' },
          ]}
          value={shop.markWith ?? 'paint pen'}
          onChange={(markWith) => change({ markWith })}
        />
      </fieldset>
    </section>
  )
}
