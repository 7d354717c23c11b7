// Seven people in a corridor by a table, written by hand; corridor.py holds the same numbers in another order.
// World: x right, y away, z up, metres, right-handed. Each colour is owner mod 16, owner / 16, part, over 15.
#version 3.7;
global_settings { assumed_gamma 1.0 }
camera {
  location <0.4, -4.2, 1.55>
  sky z
  up z
  right -1.85*x
  angle 46.0
  look_at <0.1, 1.0, 1.05>
}
#macro Dye(Owner, Part)
  pigment { rgb <mod(Owner, 16), int(Owner/16), Part>/15 } finish { ambient 0 diffuse 0 emission 1 } no_shadow
#end
// A figure of plain shapes, H tall: ball for a head, straight cone for a trunk, capped limbs, a flattened cap.
#macro Figure(Owner, X, Y, H)
  union {
    sphere { <0, 0, 0.93*H>, 0.065*H Dye(Owner, 0) }
    sphere { 0, 1 scale <0.07, 0.075, 0.04>*H translate <0, 0.01, 0.975>*H Dye(Owner, 1) }
    cone { <0, 0, 0.48>*H, 0.09*H, <0, 0, 0.83>*H, 0.13*H Dye(Owner, 3) }
    #for (Side, -1, 1, 2)
      sphere { <Side*0.15, 0, 0.80>*H, 0.035*H Dye(Owner, 5) }
      sphere { <Side*0.19, -0.05, 0.45>*H, 0.035*H Dye(Owner, 5) }
      cylinder { <Side*0.15, 0, 0.80>*H, <Side*0.19, -0.05, 0.45>*H, 0.035*H Dye(Owner, 5) }
      sphere { <Side*0.06, 0, 0.48>*H, 0.05*H Dye(Owner, 7) }
      sphere { <Side*0.06, 0, 0.05>*H, 0.05*H Dye(Owner, 7) }
      cylinder { <Side*0.06, 0, 0.48>*H, <Side*0.06, 0, 0.05>*H, 0.05*H Dye(Owner, 7) }
    #end
    translate <X, Y, 0>
  }
#end
Figure(1, -1.6, 0.8, 1.62)
Figure(2, -1.2, 1.7, 1.80)
Figure(3, -0.5, 0.4, 1.71)
Figure(4, -0.1, 2.2, 1.90)
Figure(5,  0.5, 0.9, 1.25)
Figure(6,  1.1, 1.5, 1.68)
Figure(7,  1.5, 0.2, 1.75)
box { <-0.9, 1.0, 0.70>, <0.9, 1.6, 0.75> Dye(8, 10) }
box { <-0.85, 1.05, 0>, <-0.79, 1.11, 0.70> Dye(8, 10) }
box { <0.79, 1.05, 0>, <0.85, 1.11, 0.70> Dye(8, 10) }
box { <-0.15, 1.15, 0.75>, <0.15, 1.35, 1.02> Dye(9, 10) }
