/** Forms of setup as a browser sends them, filled in right; a test says what is different. */

export const centreTyped = {
  name: 'West',
  about: '',
  phone: '0300 1',
  latitude: '54,2',
  longitude: '-3.1',
  hours: [
    { weekday: '1', opensMinute: '08:00', closesMinute: '18:00' },
    { weekday: '', opensMinute: '', closesMinute: '' },
    { weekday: '6', opensMinute: '22:00', closesMinute: '24:00' },
  ],
  nightDoor: 'shut',
  nightName: '',
  nightPhone: '',
  takes: ['small-birds'],
  offers: { 'small-birds': '2', falcons: '' },
}

export const driverTyped = {
  name: 'Sorrel Wain',
  phone: '0300 7',
  area: 'The coast',
  vehicle: 'Estate car',
  hours: [
    { weekday: '1', opensMinute: '17:00', closesMinute: '22:00' },
    { weekday: '', opensMinute: '', closesMinute: '' },
  ],
  drivesAtNight: 'on',
  note: '',
}

export const enclosureTyped = {
  roomId: '4',
  name: 'New cage',
  housingType: 'hospital-cage',
  sizeRank: '3',
  widthM: '1',
  lengthM: '1.5',
  heightM: '1',
  features: ['pool'],
  newFeatures: 'heat lamp; pool',
  turnaroundMin: '0',
  driesAfter: 'each',
  walkingOrder: '9',
  stocking: { thrushes: '2', kestrels: '1', 'seedeaters-small': '0' },
}

export const personTyped = {
  name: 'Nell Thrift',
  email: ' NELL@example.org',
  phone: '',
  roles: [
    { role: 'carer', centreId: '1', practiceId: '' },
    { role: '', centreId: '', practiceId: '' },
  ],
}

export const stageTyped = {
  stage: 'critical care',
  housing: 'hospital-cage',
  medianDays: '2',
  p90Days: '5',
  onward: '70',
  died: '20',
  euthanased: '10',
  left: '0',
  lengthsMark: 'R:S2',
  sharesMark: 'D',
}

export const arrivalsTyped = {
  centreId: '2',
  group: 'small-birds',
  animalsPerYear: '120',
  monthShares: ['0', '0', '5', '10', '20', '20', '20', '15', '5', '5', '0', ''].map(one => one || '0'),
  eventSizes: ['80', '', '20', ''],
  mark: 'R:S22',
}

export const policyTyped = {
  preset: 'proper-place-first',
  tightChance: '15',
  holdMinutes: '240',
  askLapseMinutes: '60',
  lateMinutes: '30',
  finderDays: '90',
}

export const weightsTyped = {
  kappa: '0,35',
  omega: '5',
  transferPlaceDays: '2',
  kmPerPlaceDay: '40',
  refusalPlaceDays: '20',
  redirectPlaceDays: '5',
  keepAdvicePlaceDays: '0.25',
  keepTomorrowPlaceDays: '0.5',
  keepTodayPlaceDays: '3',
}

export const speciesTyped = {
  commonName: 'Lanner',
  alsoCalled: 'windhover',
  scientificName: '',
  groupSlug: 'falcons',
  companySlug: 'kestrels',
  adultAlone: 'yes',
  sizeRank: '4',
  massGLow: '136',
  massGHigh: '314',
  massMark: 'M',
  flightLengthMinM: '',
  flightMark: '',
  youngFromMonth: '5',
  youngToMonth: '8',
  youngMark: 'CP',
  handlingCautions: ['talons'],
  licenceMark: '',
  reviewedOn: '',
  releaseSeasonNote: '',
  note: '',
}

export const conditionTyped = {
  name: 'Caught in a net',
  kind: 'reason',
  words: 'stuck in a net; caught in netting',
  appliesTo: 'both',
  defaultUrgency: 'today',
  markUrgency: 'CP',
  mayNeedSurgeon: '',
  markSurgeon: '',
  deadlineNote: '',
  markDeadline: '',
  quarantine: 'none',
  markQuarantine: '',
  asksFirst: ['bleeding'],
  cautions: ['zoonoses'],
  markCautions: 'CP',
}

export const placeTyped = {
  name: 'Fenmoor',
  kind: 'village',
  alsoCalled: 'the Fen',
  latitude: '54,25',
  longitude: '-3.1',
}

export const seasonTyped = {
  species: 'kestrel',
  kind: 'migration',
  opens: '04-01',
  closes: '09-15',
  grams: '',
  mark: 'CP',
  note: 'to the coast',
}
