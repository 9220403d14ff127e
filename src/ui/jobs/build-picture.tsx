import type { Build } from '../../core/builds/build.ts'

/** The build's little picture, as its file draws it. */
export function BuildPicture({ build, size = 48 }: { readonly build: Build; readonly size?: number }) {
  return (
    <svg className="build-picture" viewBox="0 0 48 48" width={size} height={size} aria-hidden="true">
      <path d={build.picture} />
    </svg>
  )
}
