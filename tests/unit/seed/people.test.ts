import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { CENTRES } from '#seed/scenario/centres.ts'
import { DRIVERS, OUTSIDE_PLACES, PRACTICES } from '#seed/scenario/outside.ts'
import { emailOf, PEOPLE } from '#seed/scenario/people.ts'

describe('the people of the demonstration', () => {
  it('are in the list of sign-ins exactly where the scenario shows them', () => {
    const file = readFileSync(new URL('../../../seed/sign-ins.json', import.meta.url), 'utf8')
    const shown = PEOPLE.flatMap(person =>
      person.shownAs === undefined
        ? []
        : [{ role: person.shownAs, name: person.name, email: emailOf(person) }],
    )
    expect(JSON.parse(file)).toEqual(shown)
  })

  it('fill every role, and one of them several', () => {
    const roles = new Set(PEOPLE.flatMap(person => person.roles.map(({ role }) => role)))
    expect([...roles].sort()).toEqual(['administrator', 'carer', 'coordinator', 'manager', 'vet'])
    expect(PEOPLE.filter(person => person.roles.length > 2)).toHaveLength(1)
    expect(new Set(PEOPLE.map(emailOf)).size).toBe(PEOPLE.length)
  })

  it('work where the scenario has a place', () => {
    const centres = CENTRES.map(centre => centre.name)
    const practices = PRACTICES.map(practice => practice.name)
    for (const role of PEOPLE.flatMap(person => person.roles)) {
      if (role.role === 'carer') expect(centres).toContain(role.centre)
      if (role.role === 'vet') expect(practices).toContain(role.practice)
    }
    for (const centre of centres) {
      expect(
        PEOPLE.some(({ roles }) => roles.some(one => one.role === 'carer' && one.centre === centre)),
      ).toBe(true)
    }
  })

  // Ofcom keeps 01632 960000 to 960999 and 07700 900000 to 900999 for drama (from memory).
  it('have only telephone numbers that nobody has', () => {
    const numbers = [
      ...CENTRES.flatMap(centre => [centre.phone, centre.night?.phone]),
      ...PRACTICES.flatMap(practice => [practice.phone, practice.nightPhone]),
      ...[...OUTSIDE_PLACES, ...DRIVERS, ...PEOPLE].map(one => one.phone),
    ].filter(number => number !== undefined)
    for (const number of numbers) expect(number).toMatch(/^(01632 960|07700 900)\d{3}$/)
  })
})
