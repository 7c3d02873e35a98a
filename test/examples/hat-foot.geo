// The foot of a hat stiffener on a panel, one half of it: x = -30 is the middle of the hat. mm
//   gmsh -2 test/examples/hat-foot.geo -o test/examples/hat-foot.msh
R = 4;                // bend of the hat, its face towards the filler
slope = 70 * Pi / 180; // of its web
t = 0.4;              // one layer; the hat has four
r = 3;                // fillet of the wrap on the inside, its free face
w = 0.5;              // thickness of the wrap
foot = 20;
web = 14;             // from the end of the bend up
depth = 3;            // of the panel
half = 30;
end = 40;

s = Sin(slope);
c = Cos(slope);
// The wrap's fillet touches the panel and the web.
rho = r + w;
cx = -R * s - (rho + (rho - R + R * c) * c) / s;
Point(1) = {0, R, 0};      // centre of the bend
Point(2) = {cx, rho, 0};   // centre of the fillet

// The hat: layer by layer from the face that it shows the filler.
For k In {0:4}
  a = R - k * t;
  Point(10 + k) = {foot, k * t, 0};
  Point(20 + k) = {0, k * t, 0};
  Point(30 + k) = {-a * s, R - a * c, 0};
  // Where the wrap begins, and the end of the web.
  Point(40 + k) = {cx + rho * s + k * t * s, rho + rho * c + k * t * c, 0};
  Point(50 + k) = {-a * s - web * c, R - a * c + web * s, 0};
  Line(110 + k) = {10 + k, 20 + k};
  Circle(120 + k) = {20 + k, 1, 30 + k};
  Line(130 + k) = {30 + k, 40 + k};
  Line(140 + k) = {40 + k, 50 + k};
  Transfinite Curve {110 + k} = 15 Using Progression 0.82;
  Transfinite Curve {120 + k} = 25 Using Progression 1.06;
  Transfinite Curve {130 + k} = 9;
  Transfinite Curve {140 + k} = 13 Using Progression 1.2;
EndFor
For k In {0:3}
  For j In {1:5}
    Line(100 * j + 400 + k) = {10 * j + k, 10 * j + k + 1};
    Transfinite Curve {100 * j + 400 + k} = 2;
  EndFor
  For j In {1:4}
    Curve Loop(10 * j + k) = {100 + 10 * j + k, 500 + 100 * j + k, -(100 + 10 * j + k + 1), -(400 + 100 * j + k)};
    Plane Surface(10 * j + k) = {-(10 * j + k)};
    Transfinite Surface {10 * j + k};
    Recombine Surface {10 * j + k};
  EndFor
EndFor

// The wrap, from the middle of the hat along panel, fillet and web.
Point(60) = {-half, 0, 0};
Point(61) = {-half, w, 0};
Point(62) = {cx, 0, 0};
Point(63) = {cx, w, 0};
Point(64) = {cx + r * s, rho + r * c, 0};
Point(65) = {-R * s - web * c - w * s, R - R * c + web * s - w * c, 0};
Line(200) = {60, 62};
Line(201) = {61, 63};
Circle(202) = {62, 2, 40};
Circle(203) = {63, 2, 64};
Line(204) = {64, 65};
Line(205) = {60, 61};
Line(206) = {62, 63};
Line(207) = {40, 64};
Line(208) = {50, 65};
Transfinite Curve {200, 201} = 15 Using Progression 0.82;
Transfinite Curve {202, 203} = 29 Using Bump 0.3;
Transfinite Curve {204} = 13 Using Progression 1.2;
Transfinite Curve {205, 206, 207, 208} = 2;
Curve Loop(60) = {200, 206, -201, -205};
Curve Loop(61) = {202, 207, -203, -206};
Curve Loop(62) = {140, 208, -204, -207};
For k In {60:62}
  Plane Surface(k) = {k};
  Transfinite Surface {k};
  Recombine Surface {k};
EndFor

// The panel, and the filler between the three.
Point(70) = {-half, -depth, 0};
Point(71) = {end, -depth, 0};
Point(72) = {end, 0, 0};
Line(210) = {60, 70};
Line(211) = {70, 71};
Line(212) = {71, 72};
Line(213) = {72, 10};
Line(214) = {62, 20};
Transfinite Curve {210, 212} = 5;
Transfinite Curve {211} = 41;
Transfinite Curve {213} = 11 Using Progression 0.85;
Transfinite Curve {214} = 37 Using Bump 0.3;
Curve Loop(70) = {210, 211, 212, 213, 110, -214, -200};
Plane Surface(70) = {70};
Curve Loop(71) = {214, 120, 130, -202};
Plane Surface(71) = {71};

Physical Surface("filler") = {71};
Physical Surface("panel") = {70};
Physical Surface("hat-45") = {10, 20, 30, 40, 13, 23, 33, 43};
Physical Surface("hat-0") = {11, 21, 31, 41, 12, 22, 32, 42};
Physical Surface("wrap") = {60, 61, 62};
Physical Curve("hat-face") = {110, 120, 130, 140};
Physical Curve("wrap-face") = {201, 203, 204};
Physical Curve("web-end") = {900, 901, 902, 903, 208};
Physical Curve("panel-end") = {212};
Physical Curve("middle") = {210, 205};

Mesh.Algorithm = 6;
Mesh.ElementOrder = 2;
Mesh.MshFileVersion = 4.1;
