// Every change to a job is one of these: plain data with a trade name. Ids are drawn outside and passed in.
import type { PagePoint } from '../../geometry/points';
import type {
  Job,
  JobDrawing,
  JobEdge,
  JobFacet,
  JobFitting,
  JobIssue,
  JobLine,
  JobOpening,
  JobPage,
  JobRoof,
  JobScale,
  JobSystem,
  JobWork,
  LengthCheck,
  LogEntry,
  ScaleRegion,
} from '../schema';

export type Command =
  | { readonly kind: 'setAbout'; readonly fields: Partial<Job['about']> }
  | { readonly kind: 'setDisplay'; readonly display: Job['display'] }
  | { readonly kind: 'addDrawing'; readonly drawing: JobDrawing; readonly pages: readonly JobPage[] }
  | { readonly kind: 'addPage'; readonly page: JobPage }
  | { readonly kind: 'renamePage'; readonly page: string; readonly name: string }
  | { readonly kind: 'removePage'; readonly page: string }
  | { readonly kind: 'setScale'; readonly page: string; readonly scale: JobScale | null }
  /** A part of the page with a scale of its own: a new one, or the one of the same id changed. */
  | { readonly kind: 'setRegion'; readonly page: string; readonly region: ScaleRegion }
  | { readonly kind: 'removeRegion'; readonly page: string; readonly region: string }
  /** The page is shown turned and stretched, in all; what is drawn on it goes along. */
  | {
      readonly kind: 'correctPage';
      readonly page: string;
      readonly degrees: number;
      readonly stretch: number;
    }
  | { readonly kind: 'addCheck'; readonly page: string; readonly check: LengthCheck }
  | { readonly kind: 'removeCheck'; readonly page: string; readonly index: number }
  | { readonly kind: 'addRoof'; readonly roof: JobRoof; readonly edges: readonly JobEdge[] }
  | {
      readonly kind: 'setRoof';
      readonly roof: string;
      readonly fields: Partial<Pick<JobRoof, 'name' | 'fall' | 'deck' | 'fastening' | 'laying'>>;
    }
  | { readonly kind: 'removeRoof'; readonly roof: string }
  | { readonly kind: 'addLine'; readonly roof: string; readonly line: JobLine }
  | {
      readonly kind: 'setLine';
      readonly roof: string;
      readonly line: string;
      readonly fields: Partial<Omit<JobLine, 'id'>>;
    }
  | { readonly kind: 'removeLine'; readonly roof: string; readonly line: string }
  | { readonly kind: 'setFacets'; readonly roof: string; readonly facets: readonly JobFacet[] }
  /** `at` on the roof's page; `instead` of which pin, or null for one more. */
  | {
      readonly kind: 'pinEndLap';
      readonly roof: string;
      readonly at: PagePoint;
      readonly instead: number | null;
    }
  | { readonly kind: 'unpinEndLap'; readonly roof: string; readonly index: number }
  /** What is drawn on a roof beside its rings and fittings goes along with it. */
  | { readonly kind: 'moveMarks'; readonly roof: string; readonly by: PagePoint }
  | { readonly kind: 'addOpening'; readonly opening: JobOpening; readonly edges: readonly JobEdge[] }
  | {
      readonly kind: 'setOpening';
      readonly opening: string;
      readonly fields: Partial<Pick<JobOpening, 'name' | 'kind'>> & Clearable<Pick<JobOpening, 'blocks'>>;
    }
  | { readonly kind: 'removeOpening'; readonly opening: string }
  | { readonly kind: 'moveCorner'; readonly edge: string; readonly at: PagePoint }
  | { readonly kind: 'moveRing'; readonly edges: readonly string[]; readonly by: PagePoint }
  | { readonly kind: 'insertCorner'; readonly after: string; readonly edge: string; readonly at: PagePoint }
  | { readonly kind: 'removeCorner'; readonly edge: string }
  | {
      readonly kind: 'setEdges';
      readonly edges: readonly string[];
      readonly fields: Partial<Pick<JobEdge, 'kind' | 'upstand' | 'allowance'>> &
        Clearable<Pick<JobEdge, 'clear' | 'perimeter' | 'measured'>>;
    }
  | { readonly kind: 'placeFitting'; readonly fitting: JobFitting }
  | {
      readonly kind: 'setFitting';
      readonly fitting: string;
      readonly fields: Partial<Pick<JobFitting, 'kind' | 'at' | 'size'>> &
        Clearable<Pick<JobFitting, 'clear' | 'blocks'>>;
    }
  | { readonly kind: 'removeFitting'; readonly fitting: string }
  | { readonly kind: 'setWork'; readonly fields: Partial<Omit<JobWork, 'moved'>> }
  /** The course that lies at a place of the roof's page waits for a working day; null takes the move back. */
  | {
      readonly kind: 'moveCourse';
      readonly roof: string;
      readonly at: PagePoint;
      readonly day: number | null;
    }
  | { readonly kind: 'addIssue'; readonly issue: JobIssue }
  | { readonly kind: 'addLogEntry'; readonly entry: LogEntry }
  | { readonly kind: 'setSystem'; readonly fields: Partial<JobSystem> }
  /** `path` below `rates`, such as ['speeds', 'machine']. */
  | { readonly kind: 'setRate'; readonly path: readonly (string | number)[]; readonly value: unknown };

/** Fields that may be missing in the record; null takes them out. */
type Clearable<T> = { readonly [K in keyof T]?: NonNullable<T[K]> | null };

export type CommandKind = Command['kind'];

/** The next job, or why not, in words that a panel can show. */
export type CommandResult = { readonly job: Job } | { readonly refusal: string };

/** One handler for each of some kinds of command. */
export type CommandHandlers<K extends CommandKind> = {
  readonly [Kind in K]: (job: Job, command: Extract<Command, { kind: Kind }>) => CommandResult;
};
