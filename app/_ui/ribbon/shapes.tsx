import { clipPolygon, type Ground, PROFILE_PX, type Profile, svgPoints } from './geometry.ts'
import { stageClass } from './stage-class.ts'

const STRETCHED = { preserveAspectRatio: 'none', focusable: false } as const

/** Bands, dividers and outline, stretched to the width of the picture. */
export function ProfileShape({ profile, days }: { profile: Profile; days: number }) {
  const lined = profile.bands.filter(({ stage }) => stage === 'quarantine' || stage === 'overwintering')
  return (
    <>
      <svg aria-hidden="true" {...STRETCHED} className="rb-prof" viewBox={`0 0 ${days} ${PROFILE_PX}`}>
        {profile.bands.map(({ stage, points }) => (
          <polygon key={svgPoints(points)} className={stageClass(stage)} points={svgPoints(points)} />
        ))}
        {profile.dividers.map(line => (
          <polyline key={svgPoints(line)} className="rb-div" points={svgPoints(line)} />
        ))}
        <polyline className="rb-edge" points={svgPoints(profile.silhouette)} />
      </svg>
      {lined.map(({ stage, points }) => (
        <i
          key={svgPoints(points)}
          className={`rb-lines ${stageClass(stage)}-lines`}
          style={{ clipPath: clipPolygon(points, days, PROFILE_PX) }}
        />
      ))}
    </>
  )
}

/** The slab of ground and the hatched hole in it, drawn apart so that hatching never stretches. */
export function GroundShape({ ground, days }: { ground: Ground; days: number }) {
  return (
    <>
      <svg aria-hidden="true" {...STRETCHED} className="gr-slab" viewBox={`0 0 ${days} 1`}>
        <polygon points={svgPoints(ground.slab)} />
        <polyline points={svgPoints(ground.surface)} />
      </svg>
      {ground.hole.length > 0 && (
        <i className={`gr-hole ${ground.tone}`} style={{ clipPath: clipPolygon(ground.hole, days, 1) }} />
      )}
    </>
  )
}
