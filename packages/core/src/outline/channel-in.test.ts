import { expect, it } from 'vitest';
import { channelIn } from './index.js';

const ellipse = { family: 'ellipse', parameters: { width: 1 } };
const choice = { file: 'channel.json', named: '--design' };

it('a channel is taken from an outline, a pick or a design of a front, with what it was told by', () => {
  const points = [[0, 0]];
  expect(channelIn(ellipse, choice)).toEqual({ outline: ellipse, of: ellipse });
  expect(channelIn({ points, title: 'x' }, choice)).toEqual({ outline: { points }, of: { points, title: 'x' } });
  expect(channelIn({ design: { ...ellipse, area: 2 } }, choice)).toMatchObject({ outline: ellipse, of: { area: 2 } });
  const front = { designs: [{ points }, ellipse] };
  expect(channelIn(front, { ...choice, design: 2 }).outline).toEqual(ellipse);
});

it.each([
  [null, undefined, /received null;/],
  [5, undefined, /received 5;/],
  [[1], undefined, /received \[1\];/],
  [{ ...ellipse, parameters: [1] }, undefined, /"parameters": \{ … \} \} or/],
  [{ ...ellipse, parameters: 5 }, undefined, /"parameters": \{ … \} \} or/],
  [{ design: null }, undefined, /received \{"design":null\};/],
  [{ designs: [null] }, 1, /received null;/],
  [{ designs: [] }, undefined, /a front with a design, received no --design; search again/],
  [{ designs: [ellipse] }, undefined, /--design 1 to 1, received no --design; name one/],
  [{ designs: [ellipse] }, 2, /--design 1 to 1, received --design 2;/],
  [ellipse, 1, /a front, with several designs, received one channel; leave --design out/],
])('%j holds none as design %s', (content, design, says) => {
  expect(() => channelIn(content, { ...choice, design })).toThrow(says);
});
