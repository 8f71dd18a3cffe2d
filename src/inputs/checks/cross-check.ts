import { checkAirloadTables } from "./airload-tables.ts";
import { checkApproach } from "./approach.ts";
import { checkBalance } from "./balance.ts";
import type { Context } from "./context.ts";
import { checkControl } from "./control.ts";
import { checkCorrelations } from "./correlations.ts";
import { checkFit } from "./fit.ts";
import { checkGeometry } from "./geometry.ts";
import { checkGroundTests } from "./ground-tests.ts";
import { checkHookon, checkSocket } from "./hookon.ts";
import { checkHookonClaims } from "./hookon-claims.ts";
import { checkCarrierInertia, checkInertias } from "./inertia.ts";
import { checkLinkage } from "./linkage.ts";
import { checkMechanism } from "./mechanism.ts";
import { checkMoving } from "./moving.ts";
import { checkRanges, checkReferences } from "./references.ts";
import { checkRelease } from "./release.ts";
import { checkRoughAir } from "./rough-air.ts";
import { checkShapes } from "./shapes.ts";
import { checkStall } from "./stall.ts";

/** Every check that looks at several values together; issues go to the context. */
export function crossCheck(context: Context): void {
  checkGeometry(context);
  checkInertias(context);
  checkCarrierInertia(context);
  checkMechanism(context);
  checkReferences(context);
  checkRanges(context);
  checkStall(context);
  checkCorrelations(context);
  checkGroundTests(context);
  checkShapes(context);
  checkMoving(context);
  checkLinkage(context);
  checkFit(context);
  checkRoughAir(context);
  checkControl(context);
  checkApproach(context);
  checkAirloadTables(context);
  checkSocket(context);
  checkHookon(context);
  checkHookonClaims(context);
  checkRelease(context);
  checkBalance(context);
}
