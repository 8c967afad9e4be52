import { describe, expect, it } from 'vitest'
import { allSources, sourcesIn } from './source.ts'
import { strayWords, textsOf, unwantedIn, welcomesAnEnd } from './words.ts'

const sources = sourcesIn('lib/words/', 'lib/domain/', 'lib/service/', 'app/')
const texts = sources.flatMap(source => textsOf(source).map(text => ({ ...text, path: source.path })))

describe('every sentence the program can say', () => {
  it('never makes a death or an earlier release a relief', () => {
    expect(texts.length).toBeGreaterThan(100)
    const welcome = texts.filter(({ text }) => welcomesAnEnd(text))
    expect(welcome.map(({ path, line, text }) => `${path}:${line} ${text}`)).toEqual([])
  })

  it('keeps to our way of writing', () => {
    const words = texts.filter(({ path }) => path.startsWith('lib/words/'))
    const unwanted = words.flatMap(({ path, line, text }) =>
      unwantedIn(text).map(what => `${path}:${line} says ${what}: ${text}`),
    )
    expect(words.length).toBeGreaterThan(50)
    expect(unwanted).toEqual([])
  })

  it('stands in lib/words and not in a page', () => {
    expect(
      allSources()
        .filter(({ path }) => path.startsWith('app/'))
        .flatMap(strayWords),
    ).toEqual([])
  })
})

describe('a planted sentence', () => {
  it.each([
    "say = 'If Marram 13 dies, 17 January is eased'",
    "say = { eases: 'Its death eases Tuesday' } as const",
    "say = { eases: 'Its death eases Tuesday' } satisfies Words",
    "say = 'Her death frees cage 6'",
    `say = \`\${name} died; this makes room for \${other}\``,
    "say = 'An earlier release of Rush 12 would relieve the aviary'",
    "say = 'Releasing her early helps on 17 January'",
    "say = 'Euthanasia would save 4 place-days'",
    "say = name + ' died, ' + cage + ' is freed up'",
    "say = 'Good news: 2 died, 2 places'",
  ])('that welcomes an end is found: %s', text => {
    const said = textsOf({ path: 'lib/words/x.ts', text }).map(one => one.text)
    expect(said.some(welcomesAnEnd)).toBe(true)
  })

  it.each([
    'Rush 12 died on Thu 26 Nov at Hollin Ness',
    'A booked departure of Rush 12 frees cage 6',
    'What would ease it',
    'Released, died, euthanased: counted apart',
  ])('that only says what is so is left alone: %s', text => {
    expect(welcomesAnEnd(text)).toBe(false)
  })

  it.each([
    ['Please choose', 'please'],
    ['Saved successfully', 'successfully'],
    ['Invalid weight', 'invalid'],
    ['Done!', 'an exclamation mark'],
    ['Oops', 'an apology'],
  ])('against our way of writing is found: %s', (text, what) => {
    expect(unwantedIn(text)).toEqual([what])
  })

  it('is not a name, a key, a comparison or an import', () => {
    const text =
      "import x from 'please'\nconst y = { 'please': 1 }\nswitch (z) { case 'invalid': }\nif (z === 'invalid') y['please']"
    expect(textsOf({ path: 'lib/words/x.ts', text })).toEqual([])
  })

  it('is found in a page', () => {
    const page = {
      path: 'app/x/page.tsx',
      text: 'export const P = () => <p title="Hello there">Take one {n}</p>',
    }
    expect(strayWords(page)).toEqual([
      'app/x/page.tsx:1 says "Hello there"',
      'app/x/page.tsx:1 says "Take one"',
    ])
    const clean = {
      path: 'app/x/page.tsx',
      text: 'export const P = () => <p className="two words">{say} · </p>',
    }
    expect(strayWords(clean)).toEqual([])
  })
})
