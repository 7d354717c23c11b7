// Six people of turned and flattened shapes on three steps, seen from above by a lens that is rolled; by hand.
#version 3.7;
global_settings { assumed_gamma 1.0 }
// A lens at (-2, -3, 2.6), panned 30 degrees to the east of north, tilted down by 15, rolled 10 degrees clockwise,
// 24 mm long before a gate of 24 by 10 mm.
camera {
  location 0
  direction 24*y
  right 24*x
  up 10*z
  rotate 10*y
  rotate -15*x
  rotate -30*z
  translate <-2, -3, 2.6>
}
#macro Dye(Owner, Part)
  pigment { rgb <mod(Owner, 16), int(Owner/16), Part>/15 } finish { ambient 0 diffuse 0 emission 1 } no_shadow
#end
// Turned by T degrees, counter-clockwise from above, and standing on a step Z high.
#macro Figure(Owner, X, Y, Z, T)
  union {
    sphere { 0, 1 scale <0.075, 0.10, 0.125> translate <0, 0, 1.60> Dye(Owner, 0) }
    sphere { 0, 1 scale <0.09, 0.11, 0.10> rotate 25*x translate <0, -0.02, 1.65> Dye(Owner, 1) }
    cone { <0, 0, 0.85>, 0.16, <0, 0, 1.42>, 0.22 scale <1, 0.6, 1> Dye(Owner, 3) }
    box { <-0.18, -0.11, 0>, <0.18, 0.11, 0.86> Dye(Owner, 7) }
    cone { <0.2, 0, 1.35>, 0.06, <0.35, 0.45, 1.2>, 0.03 Dye(Owner, 5) }
    rotate T*z
    translate <X, Y, Z>
  }
#end
Figure(1, -1.0, 0.5, 0.0, 20)
Figure(2, -0.2, 0.6, 0.0, 110)
Figure(3, -0.4, 1.4, 0.2, -60)
Figure(4, 0.7, 1.3, 0.2, 180)
Figure(5, 0.1, 2.3, 0.4, 75)
Figure(6, 1.4, 2.2, 0.4, -10)
box { <-2, 1.0, 0>, <2.5, 1.9, 0.2> Dye(7, 10) }
box { <-2, 1.9, 0>, <2.5, 2.8, 0.4> Dye(8, 10) }
