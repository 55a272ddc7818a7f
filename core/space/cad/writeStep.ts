import { finished, type Steps } from '../../figures/steps.ts';
import type { BarLine } from './barLines.ts';
import { addPlacement, addSolid } from './stepSolid.ts';
import { type StepData, stepData, stepFile, stepList, stepString } from './stepText.ts';

/** One kind of thing, and where each of it stands. */
export interface CadProduct {
  readonly name: string;
  readonly line: BarLine;
  /** Each one's name, and radians by which it is turned about the axis. */
  readonly places: readonly { readonly name: string; readonly turn: number }[];
}

/** What a CAD file holds. */
export interface CadModel {
  readonly name: string;
  readonly description: string;
  /** Of every product; null: none. */
  readonly revision: string | null;
  /** Of issue, `2026-05-01`; null: none. */
  readonly date: string | null;
  readonly products: readonly CadProduct[];
}

/**
 * A model as a STEP file (ISO 10303-21, application protocol 214), in mm: every product a solid, its
 * occurrences turned about the axis and gathered in one assembly. The same model gives the same bytes.
 */
export function writeStep(model: CadModel): string {
  return finished(stepFileSteps(model));
}

/** The same in steps, one for each product. */
export function* stepFileSteps({ name, description, revision, date, products }: CadModel): Steps<string> {
  const data = stepData();
  const context = { ...addContexts(data), revision: stepString(revision ?? '') };
  const root = addProduct(data, context, name);
  const origin = addPlacement(data, [0, 0, 0], [0, 0, 1], [1, 0, 0]);
  const made: PlacedProduct[] = [];
  for (const product of products) {
    yield;
    const definition = addProduct(data, context, product.name);
    const own = addPlacement(data, [0, 0, 0], [0, 0, 1], [1, 0, 0]);
    const solid = addSolid(data, product.line);
    const shape = data.add(
      `ADVANCED_BREP_SHAPE_REPRESENTATION(${stepString(product.name)},(${own},${solid}),${context.geometry})`,
    );
    data.add(`SHAPE_DEFINITION_REPRESENTATION(${definition.shape},${shape})`);
    const places = product.places.map(({ turn, name: place }) => ({
      name: place,
      at: addPlacement(data, [0, 0, 0], [0, 0, 1], [Math.cos(turn), Math.sin(turn), 0]),
    }));
    made.push({ definition: definition.definition, own, shape, places });
  }
  const items = [origin, ...made.flatMap(({ places }) => places.map(({ at }) => at))];
  const assembly = data.add(
    `SHAPE_REPRESENTATION(${stepString(name)},${stepList(items)},${context.geometry})`,
  );
  data.add(`SHAPE_DEFINITION_REPRESENTATION(${root.shape},${assembly})`);
  for (const { definition, own, shape, places } of made) {
    yield;
    for (const { name: place, at } of places) {
      const words = stepString(place);
      const use = data.add(
        `NEXT_ASSEMBLY_USAGE_OCCURRENCE(${words},${words},'',${root.definition},${definition},$)`,
      );
      const placed = data.add(`PRODUCT_DEFINITION_SHAPE('','',${use})`);
      const move = data.add(`ITEM_DEFINED_TRANSFORMATION('','',${own},${at})`);
      const relation = data.add(
        `(REPRESENTATION_RELATIONSHIP('','',${shape},${assembly})REPRESENTATION_RELATIONSHIP_WITH_TRANSFORMATION(${move})SHAPE_REPRESENTATION_RELATIONSHIP())`,
      );
      data.add(`CONTEXT_DEPENDENT_SHAPE_REPRESENTATION(${relation},${placed})`);
    }
  }
  return stepFile(data, name, description, date);
}

/** A product's definition, own axes and shape, and where each of it goes, all by name. */
interface PlacedProduct {
  readonly definition: string;
  readonly own: string;
  readonly shape: string;
  readonly places: readonly { readonly name: string; readonly at: string }[];
}

interface Contexts {
  readonly product: string;
  readonly definition: string;
  readonly geometry: string;
}

/** What all products share: the application, and millimeters and radians to a hundredth of a micrometer. */
function addContexts(data: StepData): Contexts {
  const application = data.add("APPLICATION_CONTEXT('core data for automotive mechanical design processes')");
  data.add(
    `APPLICATION_PROTOCOL_DEFINITION('international standard','automotive_design',2000,${application})`,
  );
  const length = data.add('(LENGTH_UNIT()NAMED_UNIT(*)SI_UNIT(.MILLI.,.METRE.))');
  const angle = data.add('(NAMED_UNIT(*)PLANE_ANGLE_UNIT()SI_UNIT($,.RADIAN.))');
  const solid = data.add('(NAMED_UNIT(*)SI_UNIT($,.STERADIAN.)SOLID_ANGLE_UNIT())');
  const uncertainty = data.add(
    `UNCERTAINTY_MEASURE_WITH_UNIT(LENGTH_MEASURE(1.E-05),${length},'distance_accuracy_value','')`,
  );
  return {
    product: data.add(`PRODUCT_CONTEXT('',${application},'mechanical')`),
    definition: data.add(`PRODUCT_DEFINITION_CONTEXT('part definition',${application},'design')`),
    geometry: data.add(
      `(GEOMETRIC_REPRESENTATION_CONTEXT(3)GLOBAL_UNCERTAINTY_ASSIGNED_CONTEXT((${uncertainty}))GLOBAL_UNIT_ASSIGNED_CONTEXT((${length},${angle},${solid}))REPRESENTATION_CONTEXT('',''))`,
    ),
  };
}

interface Issue extends Contexts {
  /** As a string of the file. */
  readonly revision: string;
}

function addProduct(data: StepData, { product, definition, revision }: Issue, name: string) {
  const words = stepString(name);
  const own = data.add(`PRODUCT(${words},${words},'',(${product}))`);
  data.add(`PRODUCT_RELATED_PRODUCT_CATEGORY('part',$,(${own}))`);
  const formation = data.add(`PRODUCT_DEFINITION_FORMATION(${revision},'',${own})`);
  const made = data.add(`PRODUCT_DEFINITION('design','',${formation},${definition})`);
  return { definition: made, shape: data.add(`PRODUCT_DEFINITION_SHAPE('','',${made})`) };
}
