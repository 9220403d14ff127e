import { Choice } from '../fields/choice.tsx'
import { MmField } from '../fields/length-field.tsx'
import type { ShopPart } from './shop.tsx'

/** How this shop works: allowances, what is kept, how parts are tacked. */
export function Habits({ shop, change }: ShopPart) {
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
      </div>
    </section>
  )
}
