/** Lists of species groups that several centres and practices share. */
export const STAND_IN_BIRDS = ['unknown-birds', 'unknown-raptors'] as const
export const STAND_IN_MAMMALS = ['unknown-mammals'] as const

export const GARDEN_BIRDS = [
  'small-songbirds',
  'thrushes-starlings',
  'swallows',
  'swifts',
  'woodpeckers',
  'kingfishers',
  'pigeons-doves',
] as const
export const LARGE_LAND_BIRDS = ['gamebirds', 'parakeets', 'corvids'] as const
export const RAPTORS = ['hawks', 'buzzards-kites-harriers', 'falcons', 'eagles-osprey', 'owls'] as const
export const WATER_BIRDS = ['swans', 'geese', 'ducks', 'herons-storks', 'rails', 'waders'] as const
export const GULLS = ['gulls-large', 'gulls-small'] as const
export const SEABIRDS = ['auks', 'tubenoses', 'divers-grebes', 'gannets', 'cormorants'] as const
export const SMALL_MAMMALS = ['hedgehogs', 'squirrels', 'rabbits-hares', 'bats', 'mustelids'] as const
export const LARGE_MAMMALS = ['foxes', 'badgers', 'otters', 'deer'] as const
