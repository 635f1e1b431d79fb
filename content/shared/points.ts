// A point where a probe can touch, taken apart: 'B3/3-J1.plus' is branch B3, node 3-J1, side plus.

export const parts = (point: string) => {
  const dot = point.lastIndexOf('.')
  const [place = '', side = ''] = dot < 0 ? [point] : [point.slice(0, dot), point.slice(dot + 1)]
  const [branch = '', node] = place.split('/')
  return { place, side, branch, node }
}
