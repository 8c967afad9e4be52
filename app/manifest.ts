import type { MetadataRoute } from 'next'
import { paths } from '#lib/web/paths.ts'
import { PAGE_WORDS } from '#lib/words/page.ts'

/** What a phone needs to put the round beside its other programs. */
export default function manifest(): MetadataRoute.Manifest {
  return {
    name: PAGE_WORDS.name,
    short_name: PAGE_WORDS.name,
    description: PAGE_WORDS.description,
    start_url: paths.round(),
    display: 'standalone',
    background_color: '#EFF4F1',
    theme_color: '#12211E',
    icons: [{ src: '/icon.svg', sizes: 'any', type: 'image/svg+xml' }],
  }
}
