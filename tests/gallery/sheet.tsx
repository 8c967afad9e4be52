/**
 * Every component once, with invented content: what the gallery shows and axe reads.
 */
import type { ReactNode } from 'react'
import { Actions, Button, ButtonLink } from '#app/_ui/button.tsx'
import { ChanceWord } from '#app/_ui/chance.tsx'
import { ChoiceGroup } from '#app/_ui/choice.tsx'
import { CostTerms } from '#app/_ui/cost/cost-terms.tsx'
import { SelectField, TextAreaField, TextField } from '#app/_ui/field.tsx'
import { EmptyState, Notice } from '#app/_ui/notice.tsx'
import { SmallRibbon, StayRibbon } from '#app/_ui/ribbon/stay-ribbon.tsx'
import { Answer, Facts, Section } from '#app/_ui/section.tsx'
import { Shell } from '#app/_ui/shell.tsx'
import type { SkipLink } from '#app/_ui/skips.tsx'
import { DataTable, Pagination } from '#app/_ui/table.tsx'
import { RIBBON_WORDS } from '#lib/words/ribbon.ts'
import { IN_CARE, LONG, TODAY, TWO_CENTRES, WEAK } from './samples.ts'

const NAV = (['calls', 'round', 'who-is-where', 'weeks-ahead', 'setup'] as const).map(key => ({
  key,
  href: `#${key}`,
}))

type FrameProps = { readonly skips: readonly SkipLink[]; readonly children: ReactNode }

export function Frame({ skips, children }: FrameProps) {
  return (
    <Shell
      nav={NAV.map(link => (link.key === 'calls' ? { ...link, waiting: 2 } : link))}
      current="calls"
      home="#"
      who="On the line"
      day="Wed 25 Nov, 23:43"
      demo
      skips={skips}
    >
      {children}
    </Shell>
  )
}

const AXIS = { fromDay: TODAY, days: 91 }

export function Ribbons() {
  return (
    <>
      <Answer
        reference="Samphire 41"
        place={<a href="#card">kestrel, adult female</a>}
        sentence="Best tonight: Hollin Ness, with surgery on Thursday morning"
        basis="Ranked by what the whole stay costs: days without a proper place, moves, driving. You decide."
      />
      <Section id="options" head="What can be done now" note={RIBBON_WORDS.howToRead} strong>
        <h3 className="title">Hollin Ness tonight, then Long Dune for flight</h3>
        <StayRibbon data={TWO_CENTRES} axis={AXIS} />
        <CostTerms
          terms={[
            { label: 'Drive tonight', detail: '11 km, 20 min', placeDays: 0.275 },
            { label: 'Moves', detail: '1, 64 km', placeDays: 3.6 },
            {
              label: 'Days without a proper place',
              detail: 'about 1 day in 5 of the last stage',
              placeDays: 0.914,
            },
            { label: 'Others who lose the place', detail: 'two kestrels in January', placeDays: 0.333 },
          ]}
        />
        <Actions>
          <Button weight="filled" keys="Ctrl Enter">
            Take option 1
          </Button>
          <Button weight="plain">Hold the place for 2 hours</Button>
        </Actions>
      </Section>
      <Section id="weak" head="Hollin Ness for the whole stay">
        <StayRibbon data={WEAK} axis={AXIS} />
      </Section>
      <Section id="long" head="Six stages">
        <StayRibbon data={LONG} axis={{ fromDay: TODAY, days: 150 }} />
      </Section>
      <Section id="stay" head="The stay" note="Weakest: unlimited activity at Long Dune, mid-January.">
        <StayRibbon data={IN_CARE} axis={{ fromDay: TODAY - 23, days: 92 }} size="casualty" />
      </Section>
      <Section id="table" head="Who is where">
        <Animals />
      </Section>
    </>
  )
}

function Animals() {
  const rows = [
    {
      ref: 'Samphire 41',
      species: 'Kestrel',
      place: 'Hollin Ness, cage 8',
      data: IN_CARE,
      until: '7 to 22 Dec',
    },
    {
      ref: 'Dulse 7',
      species: 'Sparrowhawk',
      place: 'Hollin Ness, sheltered 1',
      data: LONG,
      until: 'about 9 Dec',
    },
    {
      ref: 'Rush 12',
      species: 'Great black-backed gull',
      place: 'Long Dune',
      data: WEAK,
      until: 'about 28 Dec',
    },
  ]
  return (
    <>
      <DataTable
        caption="Who is where"
        hideCaption
        rows={rows}
        keyOf={row => row.ref}
        isHere={row => row.ref === 'Dulse 7'}
        columns={[
          {
            key: 'ref',
            head: 'Animal',
            isRowHead: true,
            sort: { href: '#ref', now: 'ascending' },
            cell: row => (
              <a href={`#${row.ref}`}>
                {row.species} <span className="ref">{row.ref}</span>
              </a>
            ),
          },
          { key: 'place', head: 'Place', sort: { href: '#place' }, cell: row => row.place },
          {
            key: 'ribbon',
            head: 'Next eight weeks',
            phoneLabel: '',
            cell: row => <SmallRibbon data={row.data} />,
          },
          { key: 'until', head: 'Out', right: true, sort: { href: '#out' }, cell: row => row.until },
          { key: 'chance', head: 'Chance of a place', cell: () => <ChanceWord chance={0.62} /> },
        ]}
      />
      <Pagination
        from={1}
        to={3}
        total={212}
        noun="animals"
        pages={[1, 2, 3, 4].map(number => ({ number, href: `#p${number}`, isCurrent: number === 2 }))}
      />
    </>
  )
}

export function Forms() {
  return (
    <>
      <Answer
        sentence="What a screen says when things are not as usual"
        reference="States"
        place="one notice shape"
      />
      <EmptyState
        sentence="Nobody is due today"
        coming="The next check is a radiograph for Samphire 41, tomorrow at 09:00."
        todo={<ButtonLink href="#week">See the week</ButtonLink>}
      />
      <Notice
        kind="just-taken"
        role="alert"
        sentence="Cage 6 went to Marram 13 a moment ago"
        kept="Your sheet is kept. The next best is cage 11 at Hollin Ness, same ward, same chances."
        todo={<Button weight="filled">Take cage 11</Button>}
      />
      <Notice kind="changed-since" sentence="These options are from 23:41. Three things have changed since" />
      <Notice kind="done" sentence="Marram 12 is expected at Hollin Ness, cage 6" />
      <Section id="sheet" head="Call sheet" note="In the order of a call.">
        <form className="form">
          <ChoiceGroup
            name="urgent"
            legend="Anything that can’t wait?"
            aside="all that fit"
            kind="many"
            columns={2}
            chosen={['none']}
            choices={[
              { value: 'bleeding', label: 'heavy bleeding' },
              { value: 'breath', label: 'fighting for breath' },
              { value: 'bat', label: 'a bat someone touched', sub: 'wear gloves' },
              { value: 'none', label: 'none of these' },
            ]}
          />
          <ChoiceGroup
            name="age"
            legend="How old?"
            kind="one"
            columns="row"
            chosen={['adult']}
            choices={['adult', 'young', 'can’t tell'].map(value => ({ value, label: value }))}
          />
          <TextField name="place" label="Place, plus code or coordinates" hint="6 km from Withy Mead" />
          <TextField
            name="weight"
            label="Weight"
            unit="g"
            inputMode="numeric"
            defaultValue="2140"
            error="2140 g looks wrong for a kestrel"
          />
          <SelectField
            name="centre"
            label="Centre"
            none="no centre yet"
            options={[
              { value: 'h', text: 'Hollin Ness' },
              { value: 'w', text: 'Withy Mead' },
            ]}
          />
          <TextAreaField name="note" label="Note" defaultValue="Lay-by north of the bridge" />
          <Actions>
            <Button>Keep the sheet</Button>
            <Button disabled>Take option 1</Button>
          </Actions>
        </form>
      </Section>
      <Section id="facts" head="Facts">
        <Facts
          facts={[
            { term: 'Found', value: 'Marl Cross, by road, 6 Nov' },
            { term: 'Injury', value: 'Left tibiotarsus, mid-shaft, closed' },
          ]}
        />
      </Section>
    </>
  )
}
