import {
  type AgentReport,
  type DeliveredChannel,
  type DeliveryDocument,
  type Healing,
  type HealingObstacle,
  placeLabel,
  type RepairReport,
} from '@lumenfront/core';
import { caution } from '../caution.js';
import { formatTable, type TableColumn } from '../show/index.js';
import { repairedPlaces, repairNotes } from '../words/index.js';
import { materialsLine } from './materials-text.js';

const explanations: Readonly<Record<HealingObstacle, string>> = {
  entry: 'the supply does not push the agent in: it does not wet, or there is no pressure',
  'trapped air': 'compressed air stops the agent; vent the channel or raise the pressure',
  shrinkage: 'what a full damage holds shrinks too much in cure',
  gap: 'the damage is open wider than the agent fills',
  volume: 'the reservoir is too small',
  gel: 'the agent gels first',
  pressure: 'the pressure was cut to what the edge bears, and too little is left',
};

/** What a channel delivers, beside the reference, for people. */
export function deliveryText(document: DeliveryDocument, width: number): string {
  const { title, ratio, delivery, cautions } = document;
  return [
    title,
    ...materialsLine(document),
    '',
    ...connection(document),
    `${document.connected === 'parallel' && document.perMetre === undefined ? 'All channels together carry' : 'The channel carries'} ${number(ratio.flow)} times the laminar flow of the reference, at ${number(ratio.area)} times its area.`,
    '',
    figures(document, width),
    healingHeading(document),
    '',
    healing(document, width),
    ...explained(document),
    ...repairText(document, width),
    ...remarks(document),
    ...delivery.agents.flatMap(({ name, caution: said }) => (said === undefined ? [] : [`note: ${name}: ${said}`])),
    ...cautions.map((said) => `note: ${said}`),
    '',
    caution,
  ].join('\n');
}

/** How several channels are supplied, and what that means for the figures. */
function connection({ connected, number: channels, perMetre, delivery: { length } }: DeliveryDocument): string[] {
  if (connected === undefined) return [];
  if (perMetre !== undefined)
    return [
      connected === 'parallel'
        ? 'An endless row, all channels supplied alike: figures are those of one.'
        : `An endless row in series, supply and return side by side: the coolant goes ${number(length)} mm through one and back through the next; the agent comes through one. Figures are those of such a circuit, area and flow those of one channel.`,
      [
        `In a metre of width, ${number(perMetre.circuits)} ${connected === 'parallel' ? 'channels' : 'circuits'}: ${number(perMetre.area)} mm²`,
        `coolant ${number(perMetre.flowRate)} mm³/s, ${number(perMetre.heatCapacityRate)} W/K carried`,
        ...(perMetre.wallRate === undefined ? [] : [`${number(perMetre.wallRate)} W/K from the walls`]),
      ].join(', '),
      '',
    ];
  if (connected === 'parallel')
    return ['Channels side by side in parallel: all are supplied; figures are those of all together.', ''];
  return [
    channels === 2
      ? `Two channels in series, supply and return: the coolant goes ${number(length)} mm through one and back through the other; the agent comes through one. Area and flow are those of one.`
      : `${channels} channels in series, one circuit: the coolant goes ${number(length)} mm through one and back through the next, and leaves ${channels! % 2 === 0 ? 'where it enters' : 'at the other end'}; the agent comes through one. Area and flow are those of one.`,
    '',
  ];
}

/** What repair gives back where the joint fails first. */
function repairText({ channel: { repair, healing: agents } }: DeliveryDocument, width: number): string[] {
  if (repair === undefined) return [];
  const { place, loadFactor, cycles } = repair;
  const share = (value: number | undefined) => (value === undefined ? undefined : (100 * value).toFixed(0));
  return [
    `what repair gives back where the joint fails first: ${placeLabel(place)} in case ${repair.case}, load factor ${number(loadFactor)} sound`,
    '',
    formatTable(
      [
        { heading: 'agent', align: 'left' },
        { heading: 'fills before it gels', align: 'left' },
        { heading: 'tension', unit: 'MPa', align: 'right' },
        { heading: 'of sound', unit: '%', align: 'right' },
        { heading: 'shear', unit: 'MPa', align: 'right' },
        { heading: 'of sound', unit: '%', align: 'right' },
        { heading: 'load factor', align: 'right' },
        { heading: 'of sound joint', unit: '%', align: 'right' },
        { heading: `at 10^${Math.round(Math.log10(cycles))} cycles`, unit: '%', align: 'right' },
      ],
      repair.agents.map((one, i) => [
        one.agent,
        fillsText(agents[i]!),
        one.tensileStrength === undefined ? 'no data' : number(one.tensileStrength),
        share(one.tensileShare),
        one.shearStrength === undefined ? undefined : number(one.shearStrength),
        share(one.shearShare),
        one.loadFactor === undefined ? undefined : number(one.loadFactor),
        share(one.share),
        share(one.cycledShare),
      ]),
      { width, keys: 1 },
    ),
    ...placesText(repair, width),
    ...repairNotes(repair).map((said) => `note: ${said}`),
  ];
}

/** Every place repaired by itself. */
function placesText(repair: RepairReport, width: number): string[] {
  const { agents, rows } = repairedPlaces(repair);
  if (agents.length === 0) return [];
  return [
    `load factor in case ${repair.case} at which each place fails, sound and repaired by itself:`,
    '',
    formatTable(
      [
        { heading: 'place', align: 'left' },
        { heading: 'sound', align: 'right' },
        ...agents.map((heading) => ({ heading, align: 'right' as const })),
      ],
      rows.map(([place, ...factors]) => [place, ...factors.map(number)]),
      { width, keys: 1 },
    ),
  ];
}

function fillsText({ smallestDamage, largestDamage }: DeliveredChannel['healing'][number]): string {
  if (largestDamage.healed) return 'all of the range';
  return smallestDamage.healed ? 'a part of the range' : 'none of the range';
}

/** What the coolant goes through from inlet to outlet, mm; of a row in series two and two make a circuit. */
const lengthOfCircuit = ({ connected, number: channels = 2, delivery: { length } }: DeliveryDocument): number =>
  connected === 'series' ? channels * length : length;

type Row = readonly [label: string, unit: string, value: (report: DeliveredChannel) => number | undefined];

function figures(document: DeliveryDocument, width: number): string {
  const { channel, reference, delivery, allow } = document;
  const { cooling, sensor, during } = delivery;
  const { coolant, pressureDrop } = cooling;
  const rows: Row[] = [
    ['area', 'mm²', ({ flow }) => flow.area],
    ['perimeter', 'mm', ({ flow }) => flow.perimeter],
    ['hydraulic diameter', 'mm', ({ flow }) => flow.hydraulicDiameter],
    ['conductance: flow x viscosity x length / pressure', 'mm⁴', ({ flow }) => flow.conductance],
    ['Poiseuille number f Re', '', ({ flow }) => flow.poiseuilleNumber],
    [
      `pressure that the edge bears (${during.name}, ${number(allow)} MPa allowed)`,
      'MPa',
      ({ edge, healing: agents }) => (edge === undefined ? undefined : agents[0]!.smallestDamage.pressureLimit),
    ],
    [
      `${coolant.name} over ${number(lengthOfCircuit(document))} mm at ${number(pressureDrop)} MPa`,
      'mm³/s',
      (r) => r.cooling.flowRate,
    ],
    ['  velocity', 'm/s', (r) => r.cooling.velocity / 1000],
    ['  Reynolds number', '', (r) => r.cooling.regime.reynolds],
    ['  run-in length of laminar flow', 'mm', (r) => r.cooling.runIn],
    ['  heat carried per kelvin that it warms up', 'W/K', (r) => r.cooling.heatCapacityRate],
    ['  heat from a wall one kelvin warmer than what enters', 'W/K', (r) => r.cooling.wall?.rate],
    ['  wetted area', 'mm²', (r) => r.cooling.wettedArea],
    ['largest round sensor', 'mm', (r) => 2 * r.sensor.largest.radius],
  ];
  if (sensor.diameter > 0)
    rows.push([
      `flow left beside a sensor of ${number(sensor.diameter)} mm`,
      '%',
      (r) => (r.sensor.fits ? 100 * r.sensor.flowShare : undefined),
    ]);
  const columns: TableColumn[] = [
    { heading: '', align: 'left' },
    { heading: 'channel', align: 'right' },
    { heading: 'reference', align: 'right' },
    { heading: 'unit', align: 'left' },
    { heading: 'ratio', align: 'right' },
  ];
  return formatTable(
    columns,
    rows.map(([label, unit, value]) => {
      const [ours, theirs] = [value(channel), value(reference)];
      const ratio = ours === undefined || theirs === undefined ? undefined : ours / theirs;
      return [
        label,
        bounded(ours, 'any'),
        bounded(theirs, 'any'),
        unit,
        ratio === undefined ? undefined : finite(ratio),
      ];
    }),
    { width, keys: 1 },
  );
}

function healingHeading({ delivery: { supply, damage, length } }: DeliveryDocument): string {
  const shape = damage.shape === 'disc' ? 'discs' : `strips of aspect ${number(damage.aspect)}`;
  return [
    `Healing of ${shape}, ${number(damage.opening)} mm open`,
    `supply ${number(supply.pressure)} MPa, ${supply.vented ? 'vented' : 'dead end'}`,
    `${number(length)} mm from inlet to damage`,
    `at least ${number(100 * damage.leastShare)} % filled after cure:`,
  ].join('; ');
}

function healing({ channel, reference, delivery: { damage } }: DeliveryDocument, width: number): string {
  const columns: TableColumn[] = [
    { heading: 'agent', align: 'left' },
    { heading: 'in', align: 'left' },
    { heading: 'flow', unit: 'mm³/s', align: 'right' },
    { heading: 'primed', unit: 's', align: 'right' },
    { heading: 'gel', unit: 's', align: 'right' },
    { heading: `${number(damage.areaFrom)} mm² healed`, align: 'left' },
    { heading: `${number(damage.areaTo)} mm² healed`, align: 'left' },
    { heading: 'of these', unit: 'mm²', align: 'right' },
    { heading: 'largest healed', unit: 'mm²', align: 'right' },
    { heading: 'its volume', unit: 'mm³', align: 'right' },
  ];
  const row = (agent: AgentReport, place: string) => [
    agent.agent,
    place,
    number(agent.smallestDamage.flowRate),
    bounded(agent.smallestDamage.primingTime, 'never'),
    number(agent.smallestDamage.gelTime),
    verdict(agent.smallestDamage),
    verdict(agent.largestDamage),
    'obstacle' in agent.window ? 'none' : `${number(agent.window.areaFrom)} to ${number(agent.window.areaTo)}`,
    'obstacle' in agent.reach ? undefined : number(agent.reach.areaTo),
    'obstacle' in agent.reach ? undefined : number(agent.reach.volumeTo),
  ];
  const rows = channel.healing.flatMap((agent, i) => [row(agent, 'channel'), row(reference.healing[i]!, 'reference')]);
  return formatTable(columns, rows, { width, keys: 2 });
}

function verdict({ healed, fillTime, reasons }: Healing): string {
  return healed ? `in ${number(fillTime)} s` : `no: ${reasons.join(', ')}`;
}

/** One line for each reason that occurs. */
function explained(document: DeliveryDocument): string[] {
  const found = allHealing(document).flatMap(([, , { reasons }]) => reasons);
  return [...new Set(found)].map((reason) => `${reason}: ${explanations[reason]}`);
}

function remarks(document: DeliveryDocument): string[] {
  const { delivery } = document;
  const healed = allHealing(document).flatMap(([place, agent, { regime, flowLimitedBy }]) => [
    ...regimeRemarks(regime).map((text) => `note: ${agent} in the ${place}: ${text}`),
    ...(flowLimitedBy === 'flow'
      ? [`note: ${agent} in the ${place}: the supply gives no more than ${number(delivery.supply.flowLimit!)} mm³/s`]
      : []),
  ]);
  const others = named(document).flatMap(([place, report]) => [
    ...coolingRemarks(document, report).map(
      (text) => `note: ${delivery.cooling.coolant.name} in the ${place}: ${text}`,
    ),
    ...(report.sensor.fits
      ? []
      : [`note: a sensor of ${number(delivery.sensor.diameter)} mm does not fit the ${place}`]),
    ...pressureRemarks(document, report).map((text) => `note: the edge of the ${place} ${text}`),
  ]);
  return [...new Set([...healed, ...others])];
}

function coolingRemarks({ delivery }: DeliveryDocument, { cooling }: DeliveredChannel): string[] {
  const { regime, limitedBy, pressureDrop, runIn } = cooling;
  return [
    ...regimeRemarks(regime),
    ...(regime.kind === 'laminar' && runIn > delivery.length
      ? ['still running in at its end, which is counted in its flow']
      : []),
    ...(limitedBy === 'flow' ? [`the pump gives no more than this flow, which takes ${number(pressureDrop)} MPa`] : []),
  ];
}

function regimeRemarks({ kind, reynolds }: Healing['regime']): string[] {
  if (kind === 'laminar') return [];
  const at = `at Reynolds number ${number(reynolds)}, by the laws of smooth walls`;
  return kind === 'turbulent'
    ? [`turbulent ${at}`]
    : [`neither laminar nor turbulent for certain ${at}; uncertain, anywhere between the two`];
}

function pressureRemarks({ delivery }: DeliveryDocument, { healing: agents }: DeliveredChannel): string[] {
  const { pressure, pressureLimit } = agents[0]!.smallestDamage;
  const { pressure: supplied } = delivery.supply;
  if (pressure >= supplied) return [];
  return [
    `bears ${number(pressureLimit)} of the ${number(supplied)} MPa supplied; healing is stated for what it bears`,
  ];
}

const named = ({ channel, reference }: DeliveryDocument) =>
  [
    ['channel', channel],
    ['reference', reference],
  ] as const;

function allHealing(document: DeliveryDocument): (readonly [place: string, agent: string, Healing])[] {
  return named(document).flatMap(([place, report]) =>
    report.healing.flatMap(({ agent, smallestDamage, largestDamage }) => [
      [place, agent, smallestDamage] as const,
      [place, agent, largestDamage] as const,
    ]),
  );
}

/** Three digits are what preliminary figures are worth. */
function number(value: number): string {
  return String(Number(value.toPrecision(3)));
}

const finite = (value: number) => (Number.isFinite(value) ? number(value) : undefined);

/** `undefined` for what is not known. */
function bounded(value: number | undefined, unbounded: string): string | undefined {
  if (value === undefined) return undefined;
  return value === Number.POSITIVE_INFINITY ? unbounded : number(value);
}
