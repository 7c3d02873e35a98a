/**
 * The built-in brief: a glass-fibre stiffener on a thick skin. All numbers are invented for demonstration.
 */
export const starterBrief = `# Starter brief of lumenfront. Change what differs in your joint; every key is explained by
# 'lumenfront brief --schema'. Units: mm, N, MPa, K; angles in degrees.
# The joint and its materials are invented for demonstration: replace them by your own data.

title: Stiffener of a small hull, glass/epoxy

host:
  kind: tee                    # a web pulled off a skin; 'plate' is an infinite sheet under far-field stress
  bendRadius: 8                # mm, of the bend surface that faces the filler
  overlaminate:                # the two L-shaped laminates that join web and skin
    layup: [45, -45, 0, 0, 90, 0, 0, -45, 45]   # from the filler outward, or in the notation of the trade; 0 in the section, 90 along the channel
    plyThickness: 0.3          # mm
    ply: demo-glass-epoxy      # a name under materials
  web: { height: 30 }          # mm, straight part above the bends
  foot: { length: 25 }         # mm, straight part beyond the bends
  skin:
    thickness: 5               # mm
    halfSpan: 60               # mm, from the middle to a support
    ply: demo-glass-epoxy
    layup: quasi-isotropic     # or a list of angles of equal thickness, from the filler downward
  filler: { ply: demo-glass-epoxy }   # fibres along the channel; an isotropic resin works as well
  support: clamped             # skin ends: clamped or simple

materials:
  demo-glass-epoxy:            # invented demonstration values, no product's data sheet
    E1: 39000                  # MPa, along the fibres
    E2: 11500                  # MPa, across the fibres
    nu12: 0.27
    nu23: 0.42
    G12: 4300                  # MPa
    alpha1: 7.5e-6             # 1/K, along the fibres
    alpha2: 25e-6              # 1/K, across the fibres
    transverseTension: 38      # MPa, across the fibres
    interlaminarShear: 55      # MPa

loads:                         # further ones: side, moment, pressure; in a plate farField
  pull: { force: 20 }          # N per mm of joint length, upward on the web top
  cure: { deltaT: -100 }       # K, from the stress-free state to service

cases:                         # load cases to survive; the peak of a channel is the worst over them
  cured: { cure: 1 }           # stands alone before any load comes
  pulled: { cure: 1, pull: 0.5 }
  limit: { cure: 1, pull: 1 }

channel:
  families: [ellipse, teardrop, spline]
  wall: 0.2                    # mm, least material between channel and laminate
  edgeRadius: 0.25             # mm, least radius of curvature of the edge
  mirror: true                 # left-right symmetric outlines only
  reference:                   # the channel that every design is compared with
    family: ellipse
    at: [0, 2]                 # mm, across and up from the base of the filler
    width: 0.8                 # mm
    height: 0.8                # mm

allow: 32                      # MPa, allowed peak stress at the edge: the transverse strength less a margin

search:
  seed: 1                      # the same seed gives the same front
  evaluations: 20000
  enlarge: area                # what a front makes large: area or conductance
  against: peak                # what it trades for it: peak, load-factor or strength-retained

delivery:                      # what the channel carries, for 'lumenfront deliver'
  length: 150                  # mm, from the inlet to the damage
  during: cured                # the case that acts while the channel is supplied
  supply:
    pressure: 0.2              # MPa above the air around; flowLimit (mm3/s) and reservoir (mm3) where it has them
    vented: true               # the air ahead of the liquid escapes
  agents:                      # built-in kinds with typical values, or values of your own
    - thin-cyanoacrylate
    - low-viscosity-epoxy
    - name: demo two-part resin      # invented demonstration values, no product's data sheet
      viscosity: 90            # mPa s, freshly mixed
      gelTime: 600             # s
      viscosityGrowth: 20      # viscosity at gel over that of the fresh resin
      volumeChange: -0.04      # shrinks by 4 % in cure
      largestGap: 0.5          # mm
  damage:                      # delaminations to heal
    shape: disc                # a disc across the channel, or a strip along it
    opening: 0.08              # mm, distance of its faces
    areaFrom: 50               # mm2
    areaTo: 3000               # mm2
  cooling: { pressureDrop: 0.002 }   # MPa from supply to end; the coolant is water unless you give another
  sensor: { diameter: 0.25 }   # mm, of a round sensor in the channel; 0 for none

strength:                      # how the strength of the whole joint is judged
  edge: peak                   # the largest tension at the edge; or { distance: 0.3 }, mm off it
  startsAwayFromEdge: false    # true: failure must not start at the channel; leastRetained: least share of the strength
  fatigue: { tension: 10, delamination: 10 }   # slopes of stress-life lines, common practice: replace by tests

scatter:                       # how made channels differ, for 'lumenfront scatter'; examples, to be replaced by your own
  distribution: normal         # the sizes below are standard deviations; uniform: half ranges
  samples: 200                 # made channels that a design is judged by
  outline: 0.02                # mm, form of the edge: size and two to four waves
  position: 0.05               # mm, across and up
  turn: 0.5                    # degrees
  strength: 0.05               # share of all strengths of a joint
  cure: 0.05                   # share of the cure load
  quantile: 0.95               # designs are compared by the peak that this share of them does not exceed
`;
