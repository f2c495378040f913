/**
 * A scene: everything about one photo, as plain data. `render` turns it into pixels; the same scene always
 * gives the same pixels. Lengths are in millimetres on the card's plane, with the card's own axes.
 */
import type { CardVariant } from '../../../src/core/card/geometry.ts';
import type { PadQuantity } from '../../../src/core/measurement/quantities.ts';
import type { FamilyName } from '../camera/sensors.ts';
import type { FilterName } from '../camera/filter.ts';
import type { ToneName } from '../camera/tone.ts';
import type { Paper, Printer } from '../spectra/inks.ts';

export type LightSpec =
  | { readonly kind: 'daylight'; readonly cctK: number }
  /** Sky light through or off leaves; `share` of it is leaf-coloured. */
  | { readonly kind: 'leaves'; readonly cctK: number; readonly share: number }
  | { readonly kind: 'planck'; readonly temperatureK: number }
  | { readonly kind: 'led'; readonly tone: 'warm' | 'neutral' | 'cool'; readonly shiftNm: number }
  | { readonly kind: 'tri-band'; readonly tone: 'warm' | 'cool' }
  | { readonly kind: 'mixed'; readonly one: LightSpec; readonly two: LightSpec; readonly shareOfTwo: number };

/** A band or half-plane where the main light is kept off. */
export interface Shadow {
  /** Direction across the shadow's edge, degrees. */
  readonly acrossDegrees: number;
  /** Where the edge lies from the card's centre, along that direction. */
  readonly atMm: number;
  readonly softMm: number;
  /** Share of the main light that is lost. */
  readonly depth: number;
}

export interface Illumination {
  readonly main: LightSpec;
  /** A second light; its share rises across the card. */
  readonly second: {
    readonly light: LightSpec;
    readonly share: number;
    readonly towardsDegrees: number;
    /** Change of the share over the length of the card. */
    readonly rise: number;
  } | null;
  /** Fall-off over the card: coefficients on x, y, x², xy, y² of -1 to 1 over the card's width. */
  readonly shading: readonly [number, number, number, number, number];
  readonly shadows: readonly Shadow[];
  /** From where the main light comes, degrees on the card, and how sharp its shadows are. */
  readonly fromDegrees: number;
  readonly softness: number;
}

/** How paper lies that isn't flat; the bend runs at right angles to `acrossDegrees` on the card. */
export type SheetShape =
  /** Over half the card's length; negative when the ends stand up instead of the middle. */
  | { readonly kind: 'curl'; readonly acrossDegrees: number; readonly riseMm: number }
  /** The angle between the two halves; positive when the fold stands up, negative when it lies on the table. */
  | { readonly kind: 'fold'; readonly acrossDegrees: number; readonly atMm: number; readonly foldDegrees: number };

/** Where water has soaked into the paper. */
export interface WetPatch {
  readonly xMm: number;
  readonly yMm: number;
  readonly sizeMm: number;
}

/** Something over the card that hides what is below it, mm on the card. */
export type Cover =
  | { readonly kind: 'finger'; readonly xMm: number; readonly yMm: number; readonly turnDegrees: number }
  /** Light mirrored by glossy ink or film; strength against a white in the scene's light. */
  | {
      readonly kind: 'glare';
      readonly xMm: number;
      readonly yMm: number;
      readonly sizeMm: number;
      readonly strength: number;
    };

export interface PrintedCard {
  readonly variant: CardVariant;
  /** The print's own; left out: a card of version 1. */
  readonly mark?: number;
  /** Against the size it should have, when the printer fitted it to its page; 1 if not given. */
  readonly scale?: number;
  readonly shape?: SheetShape;
  readonly wet?: readonly WetPatch[];
  /** Prints the code of another version. */
  readonly version?: number;
  readonly printer: Printer;
  readonly paper: Paper;
  /** Paper left beyond the card's edge by the scissors: left, top, right, bottom; negative cuts into it. */
  readonly marginMm: readonly [number, number, number, number];
  /** Strength of printer mottle, about 0.01 to 0.04. */
  readonly mottle: number;
}

export interface LaidStrip {
  readonly id: string;
  /** What the water holds, and so how far each pad has developed: the truth of the photo. */
  readonly values: Readonly<Partial<Record<PadQuantity, number>>>;
  /** Of the strip's middle against the slot's. */
  readonly alongMm: number;
  readonly acrossMm: number;
  readonly angleDegrees: number;
  /** The pads begin at the right end of the slot. */
  readonly reversed: boolean;
  /** How far its middle (negative: its ends) stands above the card, as plastic that was bent does. */
  readonly bowMm?: number;
  /** Light thrown back by the wet film, as a share of a white's. */
  readonly veil: number;
  /** Number of glints on pads and plastic. */
  readonly glints: number;
  /** Dye in each pad against what its maker intends, about 1. */
  readonly strengths: readonly number[];
  /** Unevenness of the dye within a pad, about 0.05. */
  readonly mottle: number;
  /** Share of the strip that water never reached: at 1 it is as it comes from the bottle, without a wet film. */
  readonly dry?: number;
  /** Lying on its pads: only the plastic's back can be seen. */
  readonly faceDown?: boolean;
  /** The sky or a lamp mirrored by the wet film: soft-edged spots over pads. */
  readonly glare?: readonly {
    /** Which pad, counted from the pad end; the spot's middle against the pad's, mm along and across the strip. */
    readonly pad: number;
    readonly alongMm: number;
    readonly acrossMm: number;
    /** Radius at half its strength. */
    readonly sizeMm: number;
    /** Light thrown back in the middle, as a share of a white's. */
    readonly strength: number;
  }[];
}

/** A bottle's label or a leaflet with the colour chart of a strip, beside the card. */
export interface LaidChart {
  readonly id: string;
  /** From the top of the chart down; those of the strip's pads that it shows. */
  readonly rows: readonly PadQuantity[];
  /** Of its middle on the card's plane. */
  readonly xMm: number;
  readonly yMm: number;
  readonly turnDegrees: number;
  readonly block: { readonly widthMm: number; readonly heightMm: number; readonly gapMm: number };
  readonly stock: Paper;
  /** Colour of the label around the blocks, sRGB 0 to 1; null: bare stock. */
  readonly tint: readonly [number, number, number] | null;
  /** Wrapped round something that lies along the rows: its radius, and the height of its top above the card. */
  readonly curve: { readonly radiusMm: number; readonly topMm: number } | null;
  /** Bright spots where the lacquer mirrors a window, mm from the chart's middle. */
  readonly glare: readonly {
    readonly uMm: number;
    readonly vMm: number;
    readonly sizeMm: number;
    readonly strength: number;
  }[];
  readonly mottle: number;
}

export type TableKind = 'wood' | 'deck' | 'cloth' | 'stone' | 'tiles' | 'plastic' | 'concrete';

export interface Table {
  readonly kind: TableKind;
  /** Base colour, sRGB 0 to 1, from which a smooth reflectance is made. */
  readonly colour: readonly [number, number, number];
  readonly turnDegrees: number;
  readonly clutter: readonly Clutter[];
}

export interface Clutter {
  readonly kind:
    'book' | 'leaflet' | 'checker' | 'coin' | 'pen' | 'towel' | 'leaf' | 'frame' | 'lid' | 'code' | 'calendar';
  readonly xMm: number;
  readonly yMm: number;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly turnDegrees: number;
  readonly colour: readonly [number, number, number];
}

export interface View {
  /** Width of the card's outline in the picture as a share of the picture's width (or of its height, if that is tighter). */
  readonly cardFill: number;
  readonly tiltDegrees: number;
  /** Direction on the card that is tilted away from the camera. */
  readonly tiltTowardsDegrees: number;
  /** Clockwise turn of the card in the picture. */
  readonly rollDegrees: number;
  /** Where the card's centre lies from the picture's, in shares of its width and height. */
  readonly offset: readonly [number, number];
  /** Focal length as a share of the picture's longer side; phones: 0.7 to 0.8. */
  readonly focal: number;
  /** Lens bend: relative shift at the picture's corner, about -0.03 to 0.03. */
  readonly bend: number;
}

export interface Camera {
  readonly family: FamilyName;
  /** Which phone of the family. */
  readonly unit: number;
  /** Linear level that paper under the main light reaches before the tone curve; above 1 it clips. */
  readonly exposure: number;
  /** Errors of the white balance: factors on red and blue. */
  readonly whiteBalance: readonly [number, number];
  readonly tone: ToneName;
  readonly saturation: number;
  /** How much it turns colours by hue, against real phones (see camera/turning.ts); not at all if not given. */
  readonly turning?: number;
  /** Share of large-scale contrast that the phone evens out, 0 to 0.15. */
  readonly localTone: number;
  /** Light scattered in the lens, as a share of the picture's mean. */
  readonly flare: number;
  /** Fall-off to the picture's corners. */
  readonly vignetting: number;
  /** Standard deviation of a full-scale pixel from photon noise, and of a black one. */
  readonly shotNoise: number;
  readonly readNoise: number;
  /** Gaussian blur, standard deviation in pixels. */
  readonly blurPx: number;
  readonly motion: { readonly lengthPx: number; readonly turnDegrees: number };
  readonly sharpening: number;
  /** What a camera app was told to do to the picture. */
  readonly filter?: FilterName;
  readonly jpegQuality: number;
}

export interface Scene {
  readonly seed: number;
  readonly widthPx: number;
  readonly heightPx: number;
  readonly light: Illumination;
  readonly card: PrintedCard | null;
  readonly strip: LaidStrip | null;
  readonly chart?: LaidChart;
  readonly covers?: readonly Cover[];
  readonly table: Table;
  readonly view: View;
  readonly camera: Camera;
  /** What is photographed is a screen that shows another photo. */
  readonly screen?: ScreenSpec;
}

export interface ScreenSpec {
  /** The photo that is shown. */
  readonly shows: Scene;
  readonly kind: 'lcd' | 'oled';
  /** Width of the shown photo, mm. */
  readonly widthMm: number;
  /** Between neighbouring pixels of the screen, mm. */
  readonly pitchMm: number;
  /** Luminance of its white against that of a white paper beside it. */
  readonly white: number;
  /** Light that leaks through black, against its white. */
  readonly black: number;
  /** Share of the room's light that its surface throws back. */
  readonly reflection: number;
}
