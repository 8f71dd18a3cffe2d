import { loadDemo } from "./test/support/load-demo.ts";
import { recordReads } from "./src/inputs/index.ts";
import { readHoldInputs, operatingPoint, atBoomAngle, describeModes } from "./src/studies/hold/index.ts";
import { readAttachment } from "./src/studies/hold-attachment/read-settings.ts";
import { stateModel, statesOf } from "./src/studies/hold-attachment/states.ts";
import { retractRules } from "./src/studies/hold-attachment/rule.ts";
import { unloadedPair, balances } from "./src/studies/hold-attachment/limit-cycle.ts";
import { poseMaps } from "./src/studies/hold-attachment/pose-map.ts";
const D=Math.PI/180;
for (const v of ["Rev A","Rev B"]) {
  const loaded = loadDemo(v);
  const open=() => recordReads(loaded);
  const { inputs, groups } = readHoldInputs(open);
  const own=readAttachment(open, inputs)!;
  const c = inputs.conditions[0];
  const at0 = operatingPoint(inputs, c, "full");
  for (const s of statesOf(own)) { const t=performance.now(); const m=stateModel(inputs,own,at0,s); console.log(v,s,m.trimmed,(performance.now()-t).toFixed(1)); for (const x of describeModes(m.modes)) if (x.imag_rad_s>0) console.log("    ",x.plane,x.class,x.name,x.frequency_Hz.toFixed(3),x.dampingRatio.toFixed(4)); }
  let t=performance.now();
  const paths=[...groups.aircraft,...groups.boom,...groups.swing,...[...groups.masses.values()].flat()];
  const r=retractRules(inputs,own,open,"hook",{longitudinal:paths,lateral:paths});
  console.log(JSON.stringify(r,null,0), performance.now()-t);
  t=performance.now(); poseMaps(inputs,own,at0); console.log("map",performance.now()-t);
  for (const a of [14,33,52]) { const at=atBoomAngle(inputs,{...at0,boomAngleDown:a*D}); t=performance.now(); const u=unloadedPair(inputs,own,at); if(!u) {console.log(a,"no trim");continue;} for (const plane of ["longitudinal","lateral"] as const) { const b=balances(u,plane); console.log(a,plane,b.map(x=>[x.ratio.toFixed(4),(x.frequency/6.283).toFixed(3),x.stable,x.travel.map(z=>(1e3*z).toFixed(3)),x.force.map(z=>z.toFixed(1))])); } console.log(performance.now()-t); }
}
