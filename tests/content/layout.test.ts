import { expect, test } from 'vitest'
import { demo } from '../../content/demo.ts'
import { readMachine } from '../../engine/check.ts'
import { Labels, layOut } from '../../web/drawing/layout.ts'
import { ranges } from '../../web/drawing/ranges.ts'
import { shortIds } from '../../web/drawing/strip.tsx'

const read = readMachine(demo)
if (!read.ok) throw new Error(read.message)
const branch = (id: string) => {
  const found = read.value.branches.find(b => b.id === id)
  if (!found) throw new Error(`no branch ${id}`)
  return found
}

test('junctions stand at their metres from the terminals, side ways in lanes of their own', () => {
  const { nodes, reach, lanes } = layOut(branch('B3'))
  expect(Object.fromEntries(nodes.map(n => [n.id, [n.metres, n.lane]]))).toEqual({
    terminals: [0, 0],
    '3-J1': [8, 0],
    '3-J2': [13.5, 0],
    '3-J3': [16.5, 0],
    '3-J4': [12, 1],
  })
  expect({ reach, lanes }).toEqual({ reach: 16.5, lanes: 2 })
})
test('the longest way keeps the first lane, whatever its place in the file', () => {
  const { nodes } = layOut(branch('B5'))
  expect(nodes.find(n => n.id === '5-J3')?.lane).toBe(0)
  expect(nodes.find(n => n.id === '5-J2')?.lane).toBe(1)
})
test('a way that leads nowhere of interest is left out and counted, one that does is kept', () => {
  const away = layOut(branch('B3'), ['3-J2'])
  expect(away.nodes.map(n => n.id)).toEqual(['terminals', '3-J1', '3-J2', '3-J3'])
  expect(away.loads.map(l => l.load.id)).toEqual(['Y31', 'Y32'])
  expect(away.left.map(({ node, ways }) => [node.id, ways])).toEqual([['3-J1', 1]])
  expect(away.lanes).toBe(1)
  const kept = layOut(branch('B3'), ['3-J4'])
  expect(kept.nodes.map(n => n.id)).toContain('3-J4')
  expect(kept.left).toEqual([])
})
test.each([
  { places: [0, 1, 2, 3, 6], shown: '1–4, 7' },
  { places: [0, 1, 5], shown: '1, 2, 6' },
  { places: [], shown: '' },
])('places $places are named $shown', ({ places, shown }) => {
  const names = ['1', '2', '3', '4', '5', '6', '7']
  expect(ranges(names, places, 20)).toBe(shown)
  if (shown !== '') expect(ranges(names, places, shown.length - 1)).toBeUndefined()
})
test('two loads at one junction stand side by side', () => {
  expect(layOut(branch('B7')).loads.map(l => [l.load.id, l.place])).toEqual([
    ['Y71', 0],
    ['S72', 1],
  ])
})
test('a label takes the next place if the first is taken, and is left out where none is free', () => {
  const labels = new Labels(300)
  expect(labels.place('J1', [{ x: 100, y: 50 }])).toMatchObject({ x: 100, y: 50 })
  expect(
    labels.place('J2', [
      { x: 110, y: 52 },
      { x: 110, y: 90 },
    ]),
  ).toMatchObject({ x: 110, y: 90 })
  expect(labels.place('J3', [{ x: 105, y: 48 }])).toBeUndefined()
})
test('a label stays inside the drawing', () => {
  const long = new Labels(100).place('valve Y32', [{ x: 95, y: 20 }])
  expect((long?.x ?? 0) + ('valve Y32'.length * 9 + 4) / 2).toBeLessThanOrEqual(100)
})
test('branches lose what they all begin with, and nothing else', () => {
  expect(shortIds(['B1', 'B2', 'B12'])).toEqual(['1', '2', '12'])
  expect(shortIds(['B1', 'F2'])).toEqual(['B1', 'F2'])
  expect(shortIds(['B', 'B2'])).toEqual(['B', 'B2'])
})
