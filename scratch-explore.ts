import { loadDemo } from "./test/support/load-demo.ts";
import { recordReads } from "./src/inputs/index.ts";
import { readHoldInputs, operatingPoint, atBoomAngle, PointModel } from "./src/studies/hold/index.ts";
for (const v of ["Rev A","Rev B"]) {
  const loaded = loadDemo(v);
  let t=performance.now();
  const { inputs } = readHoldInputs(() => recordReads(loaded));
  console.log(v,"read ms", performance.now()-t);
  const c = inputs.conditions[0];
  for (const m of ["full","empty"]) {
    const at0 = operatingPoint(inputs, c, m);
    for (const s of [85,95,105,115,125]) {
      t=performance.now();
      const row:string[]=[];
      for (const a of [14,20,26,30,34,38,40,42,44,46,48,50,52]) {
        const at = atBoomAngle(inputs,{...at0, boomAngleDown:a*Math.PI/180, airspeed:{kind:"EAS",value:s}});
        const model=new PointModel(inputs,at);
        const f=(p:any)=>{let w=9; for(const x of model.modes(undefined,p)) if(x.imag>0) w=Math.min(w,-x.real/Math.hypot(x.real,x.imag)); else if (x.real>0.0347) w=-1; return w.toFixed(3)};
        row.push(model.trimmed? f("longitudinal")+"/"+f("lateral"):"no");
      }
      console.log(m,s,row.join(" "), ((performance.now()-t)/13).toFixed(2)+"ms");
    }
  }
}
