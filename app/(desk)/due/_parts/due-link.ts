import type { Route } from 'next'
import type { DueAbout, Gap } from '#lib/domain/due.ts'
import { paths, type SetupNoun } from '#lib/web/paths.ts'

const SETUP_OF_GAP: Readonly<Record<Gap, SetupNoun>> = {
  'no-coordinator': 'people',
  'no-centre': 'centres',
  'centre-without-enclosure': 'enclosures',
  'centre-without-carer': 'people',
  'centre-without-hours': 'centres',
  'enclosure-without-stocking': 'enclosures',
  'practice-without-animals': 'practices',
}

/** Where a thing that is owed is done. */
export function dueLink(about: DueAbout): Route {
  switch (about.kind) {
    case 'call':
    case 'call-back':
      return paths.call(about.callId)
    case 'ask':
    case 'vet-ask':
      return askLink(about)
    case 'leg':
    case 'stopped-drive':
      return paths.journey(about.journeyId)
    case 'transfer':
      return paths.planMove(about.references[0] ?? '')
    case 'companion':
      return `${paths.casualty(about.references[0] ?? '')}#companion` as Route
    case 'line':
      return paths.line()
    case 'count':
      return paths.round(about.centreId)
    case 'two-versions':
      return `${paths.round(about.centreId, { as: 'list' })}#two-versions` as Route
    case 'closure':
      return paths.setupItem('closures', about.closureId)
    case 'tight':
      return paths.weeksOfCentre(about.centreId, { housing: about.housing })
    case 'review':
      return paths.setup()
    case 'gap':
      return paths.setupList(SETUP_OF_GAP[about.gap])
    default:
      return paths.casualty(about.references[0] ?? '')
  }
}

function askLink({ reference, callId }: Extract<DueAbout, { kind: 'ask' | 'vet-ask' }>): Route {
  if (reference !== null) return paths.casualty(reference)
  return callId === null ? paths.calls() : paths.call(callId)
}
