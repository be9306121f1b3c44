//! The rules by name: the one list of everything a judge can say. A test reads it and demands, for every
//! rule, a plan that is spoiled so that just this rule speaks.

use std::fmt;

use serde::{Serialize, Serializer};

macro_rules! rules {
    ($($name:ident = $text:literal: $doc:literal;)*) => {
        /// A rule of the judge.
        #[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
        pub enum Rule {
            $(#[doc = $doc] $name,)*
        }

        impl Rule {
            /// Every rule there is.
            pub const ALL: &[Rule] = &[$(Rule::$name),*];

            /// Short fixed name, for tests and people.
            pub const fn name(self) -> &'static str {
                match self {
                    $(Rule::$name => $text,)*
                }
            }

            /// What the rule demands.
            pub const fn demands(self) -> &'static str {
                match self {
                    $(Rule::$name => $doc,)*
                }
            }
        }
    };
}

impl fmt::Display for Rule {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(self.name())
    }
}

impl Serialize for Rule {
    fn serialize<S: Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.serialize_str(self.name())
    }
}

rules! {
    Index = "index": "Every index points at something that exists.";
    Magnitude = "magnitude": "No length is past 2^40 ticks.";
    PartMark = "part-mark": "A part's mark is its gate's, its role's, and its own alone.";
    PartMissing = "part-missing": "Every piece of a gate has a part.";
    PartCount = "part-count": "A part is counted as often as its gates need it.";
    PartOurs = "part-ours": "A kit's horizontals, and nothing else, are bought by the customer.";
    PartAxis = "part-axis": "A part's axis length is the judge's own.";
    PartLongPoint = "part-long-point": "A part's length from long point to long point is the judge's own.";
    PartThroat = "part-throat": "A part's throat is the judge's own, and over nothing.";
    PartSaw = "part-saw": "A saw length is the long point at the nearest saw mark.";
    PartWeight = "part-weight": "A part weighs what its pipe and saw length weigh.";
    PartTopLine = "part-top-line": "A diagonal's top line is the judge's own.";
    PartUnderLine = "part-under-line": "A diagonal's under line is the judge's own.";
    ExtraPart = "extra-part": "A row of extra parts is one part, as ordered.";
    FrameTwice = "frame-twice": "A gate order has one frame.";
    FrameLeaf = "frame-leaf": "The leaf is as long as ordered.";
    FrameHeight = "frame-height": "Height, and the distance of the axes, are the judge's own.";
    FrameRise = "frame-rise": "The end posts rise as the shop and the order say.";
    FrameDrop = "frame-drop": "The end posts reach as far down as the shop says.";
    FrameMember = "frame-member": "Every member stands where the drawing has it.";
    LeafSum = "leaf-sum": "Opening, overlap and tail add up to the leaf.";
    CheckMeasure = "check-measure": "The check measure is the judge's own.";
    Rollers = "rollers": "The rollers stand where the order and the shop say.";
    BayCount = "bay-count": "There are as many bays as the limits or the order ask for.";
    BayLine = "bay-line": "The bay lines stand where the judge finds them.";
    BayLimit = "bay-limit": "No bay reaches the shop's limit or the diagonal's.";
    BayAngle = "bay-angle": "A bay's diagonal stands at the angle of its bay.";
    CopeMisses = "cope-misses": "Every surface line of a coped end meets a pipe.";
    CopeEnd = "cope-end": "An end is square or coped as the judge finds it.";
    CopeMeets = "cope-meets": "A coped end meets the pipes the judge finds.";
    CopeSetback = "cope-setback": "The setbacks of a cope are the judge's own.";
    CopeCutback = "cope-cutback": "The cutback of a cope is the judge's own.";
    CopeClock = "cope-clock": "The long point of a cope lies at the judge's angle.";
    GateForgotten = "gate-forgotten": "A gate without a frame is left out by name.";
    LeftOutUnexplained = "left-out-unexplained": "What is left out is named with its reason.";
    PieceNotOurs = "piece-not-ours": "Nothing is cut that the customer buys.";
    PieceUnknown = "piece-unknown": "Every piece cut is one that is ordered.";
    PieceMissing = "piece-missing": "Every piece ordered is cut.";
    PieceTwice = "piece-twice": "No piece is cut twice.";
    PieceMark = "piece-mark": "A piece is cut under its own mark.";
    PieceSaw = "piece-saw": "A piece is cut to its own saw length.";
    PiecePipe = "piece-pipe": "A piece is cut from its part's pipe.";
    PieceStart = "piece-start": "A piece starts one kerf behind the piece before it.";
    PieceEnd = "piece-end": "A piece ends a saw length behind its start.";
    JointNumber = "joint-number": "Joints are numbered from 1 in order.";
    JointPipe = "joint-pipe": "A joint is of the pipe of its source.";
    JointLength = "joint-length": "A joint is as long as its source.";
    JointNearTrim = "joint-near-trim": "The near trim is the saw's, or none on a clean end.";
    JointFarTrim = "joint-far-trim": "The far trim is the saw's, or none on a clean end.";
    JointHoldBack = "joint-hold-back": "The length held back is the saw's.";
    JointEmpty = "joint-empty": "Something is cut from every joint.";
    JointOverfull = "joint-overfull": "A joint holds what is cut from it.";
    JointLeftover = "joint-leftover": "The leftover is the usable length less pieces and kerfs.";
    JointLastCut = "joint-last-cut": "The last cut takes one kerf, or what is left.";
    JointDrop = "joint-drop": "The drop is the leftover less one kerf.";
    JointFloor = "joint-floor": "What lies on the floor is what remains behind the last cut.";
    JointIdentity = "joint-identity": "Length = parts + kerf + near trim + floor piece.";
    JointKept = "joint-kept": "A drop is kept from the keep length on.";
    JointCredit = "joint-credit": "A kept drop is credited by whole feet.";
    JointLate = "joint-late": "No piece comes from a joint that arrives too late for its gate.";
    KeepTag = "keep-tag": "Every kept drop has a tag of its own.";
    MeasureFirst = "measure-first": "A tight joint is measured first.";
    RackPieceMissing = "rack-piece-missing": "A joint from the rack is a piece that lies there.";
    RackPieceTwice = "rack-piece-twice": "A piece of the rack is used once.";
    OverAvailable = "over-available": "No more joints are bought than a supplier has.";
    BuyJoints = "buy-joints": "The buy list counts the joints that are cut.";
    BuyFeet = "buy-feet": "The buy list adds up nominal lengths.";
    BuyWeight = "buy-weight": "The buy list adds up weights.";
    BuyMoney = "buy-money": "A line of the buy list is price times joints, to the cent.";
    BuyTax = "buy-tax": "A line's tax is taken once, to the cent.";
    SpareJoints = "spare-joints": "As many spare joints are bought as the shop wants.";
    SpareTwice = "spare-twice": "A pipe has one line of spares.";
    SpareQuote = "spare-quote": "Spares are bought at the least price by the foot.";
    SpareMoney = "spare-money": "A line of spares is price times joints.";
    SpareTax = "spare-tax": "A line of spares is taxed once.";
    BreakCount = "break-count": "A price of a count is used only where the count earns it.";
    BreakMissed = "break-missed": "A price that the count earns is not passed by.";
    Fees = "fees": "Freight, lifts and minimum orders are those of the joints bought.";
    FeeMoney = "fee-money": "A fee in print is its exact amount to the cent.";
    Ledger = "ledger": "Every line of the ledger is the judge's own.";
    TotalMoney = "total-money": "The total is the sum of the ledger.";
    UncutCredit = "uncut-credit": "A joint kept whole is credited by its usable length.";
    OutcomeOrder = "outcome-order": "Pipes are reported in the order of the pools.";
    OutcomeMissing = "outcome-missing": "Every pipe that is cut is reported.";
    PoolTwice = "pool-twice": "Each pipe has one pool.";
    OutcomeCost = "outcome-cost": "A pipe's cost is that of its joints and its answer.";
    OutcomeBound = "outcome-bound": "A pipe's bound is its answer's.";
    OutcomeStatus = "outcome-status": "A pipe's status is its answer's, and says why the search ended.";
    OutcomeBought = "outcome-bought": "A pipe's joints bought are counted.";
    OutcomeRack = "outcome-rack": "A pipe's joints from the rack are counted.";
    OutcomePipeMoney = "outcome-pipe-money": "A pipe's money before credits is the sum of its joints.";
    OutcomePriced = "outcome-priced": "A pipe has money where every quote of it has a price.";
    ShortUnnamed = "short-unnamed": "Where pieces are missing something is left out by name.";
    WholeCharges = "whole-charges": "The fees are the charges of the answer.";
    WasteTaken = "waste-taken": "Length taken is the sum of the joints.";
    WasteInParts = "waste-in-parts": "Length in parts is the sum of the pieces.";
    WasteAllIn = "waste-all-in": "All-in waste is what is taken and not in parts.";
    WasteLost = "waste-lost": "What is lost is kerf, trim and scrap.";
    WasteKept = "waste-kept": "What is kept is the kept floor pieces.";
    KeptList = "kept-list": "The list of kept drops is that of the joints.";
    GateCostRows = "gate-cost-rows": "Every gate and extra part has its row of costs.";
    GateCostPipe = "gate-cost-pipe": "A gate's pipe money is shared by length.";
    GateCostSplices = "gate-cost-splices": "A gate bears its own splices.";
    GateCostShared = "gate-cost-shared": "Fees are shared over gates.";
    GateCostTotal = "gate-cost-total": "A gate's total is the sum of its columns.";
    GateCostSum = "gate-cost-sum": "The rows add up to the ledger.";
    GateCompleteAfter = "gate-complete-after": "A gate is complete after the joint of its last piece.";
    GateCompleteMissing = "gate-complete-missing": "Every gate is complete after some joint.";
    GateCompleteOrder = "gate-complete-order": "Gates are listed as they are complete.";
    DueOrder = "due-order": "Gates are complete in the order they are due.";
    SittingSaw = "sitting-saw": "A share of the work names a saw of the shop.";
    SittingJoints = "sitting-joints": "Every joint is sawn at one saw.";
    SittingMinutes = "sitting-minutes": "A saw's minutes are those of its joints.";
    Minutes = "minutes": "The minutes of the week are counted by the shop's rules.";
    ReferenceFailed = "reference-failed": "A reference without money says why.";
    ReferenceUnderBound = "reference-under-bound": "No reference plan is cheaper than the bound.";
    PlanOverReference = "plan-over-reference": "The plan costs no more than a simple rule's.";
    SpliceImpossible = "splice-impossible": "A gate for which no way to splice it is found is left out.";
    SpliceSetMissing = "splice-set-missing": "Every gate that is spliced has its set.";
    SpliceSetGate = "splice-set-gate": "A set is of its own gate and count.";
    SpliceSetLines = "splice-set-lines": "A set has the lines of its gate.";
    SpliceReachForm = "splice-reach-form": "The form of the roller-bay rule is the judge's own.";
    SpliceLineWhole = "splice-line-whole": "A line's whole saw length is the judge's own.";
    SpliceLineLong = "splice-line-long": "A line's long point length is the judge's own.";
    SpliceLineX = "splice-line-x": "A line starts at the station the judge finds.";
    SpliceFewest = "splice-fewest": "A line's fewest splices are the judge's own.";
    SpliceCap = "splice-cap": "A line's most splices are the judge's own.";
    SpliceWindows = "splice-windows": "A line's windows are the judge's own.";
    SpliceClass = "splice-class": "A place is charged by its stress.";
    SplicedLineUnknown = "spliced-line-unknown": "A spliced line is one that is ordered.";
    SplicedLineTwice = "spliced-line-twice": "A line is spliced once.";
    SplicePieceCount = "splice-piece-count": "A spliced line has one piece more than splices.";
    SpliceNeeded = "splice-needed": "A line longer than every joint is spliced.";
    SpliceNotNeeded = "splice-not-needed": "A line that fits whole is not spliced.";
    BegunLine = "begun-line": "A line of which a piece is made stays as it was handed out.";
    SpliceCount = "splice-count": "A line has as many splices as are allowed.";
    SplicePieceMark = "splice-piece-mark": "Pieces of a spliced line are whole saw marks.";
    SpliceLeastPiece = "splice-least-piece": "No piece is shorter than the least.";
    SplicePiecesSum = "splice-pieces-sum": "The pieces add up to the long point less the root gaps.";
    SpliceGap = "splice-gap": "The gap as made is what the pieces leave.";
    SpliceCentre = "splice-centre": "A splice's centre follows from the pieces.";
    SpliceX = "splice-x": "A splice's station is measured from the latch face.";
    SpliceWindow = "splice-window": "A splice stands in its window.";
    SpliceBay = "splice-bay": "A splice stands in its bay.";
    SpliceBayLines = "splice-bay-lines": "A splice's distances to the bay lines are the judge's own.";
    SpliceRollerBay = "splice-roller-bay": "A splice says whether its bay is a roller bay.";
    SpliceTolerated = "splice-tolerated": "A splice says whether its place is only tolerated.";
    SpliceStress = "splice-stress": "The stress printed at a splice is the judge's own.";
    SpliceOnePerBay = "splice-one-per-bay": "A bay holds one splice of a line.";
    SpliceThreeNear = "splice-three-near": "First and third of three splices are over 10 ft apart.";
    SpliceStagger = "splice-stagger": "Top and bottom splices are apart.";
    SpliceSharedBay = "splice-shared-bay": "Top and bottom share no bay.";
    SpliceOffTheLine = "splice-off-the-line": "A splice stands on its line.";
    SpliceEndBay = "splice-end-bay": "No splice stands in the first or last bay.";
    SpliceExcludedBay = "splice-excluded-bay": "No splice stands in a bay the order excludes.";
    SpliceParkedRoller = "splice-parked-roller": "No splice stands at a parked roller.";
    SpliceClearOfBracket = "splice-clear-of-bracket": "A splice is clear of brackets.";
    SpliceClearOfToes = "splice-clear-of-toes": "A splice is clear of weld toes.";
    SpliceRollerBayReach = "splice-roller-bay-reach": "In a roller bay a splice stands near a vertical.";
    SpliceHighStress = "splice-high-stress": "Over the refused share of stress only by order.";
    KitMissing = "kit-missing": "Every kit has its advice.";
    KitJoints = "kit-joints": "A kit is advised on every local joint length.";
    KitUsable = "kit-usable": "The usable length of a local joint is the judge's own.";
    KitCount = "kit-count": "The joints a kit needs are counted.";
    KitRefused = "kit-refused": "A kit that can be spliced is not refused.";
    KitImpossible = "kit-impossible": "A kit that cannot be spliced is refused.";
    KitJointEmpty = "kit-joint-empty": "Something is cut from every local joint.";
    KitPieceStart = "kit-piece-start": "A kit's piece starts one kerf behind the one before it.";
    KitPieceEnd = "kit-piece-end": "A kit's piece ends a saw length behind its start.";
    KitPieces = "kit-pieces": "A kit's pieces are those of its horizontals.";
    KitOverfull = "kit-overfull": "A local joint holds what is cut from it.";
    KitFloor = "kit-floor": "What a local joint leaves is the judge's own.";
    NestAim = "nest-aim": "The week's problem is one of money.";
    NestPools = "nest-pools": "Every pipe with parts has its pool.";
    NestMark = "nest-mark": "The problem's mark is the saw's.";
    NestKerf = "nest-kerf": "The problem's kerf is the saw's.";
    NestCredit = "nest-credit": "The problem's credit is the shop's.";
    NestPriced = "nest-priced": "A pool is priced where every quote has a price.";
    NestStocks = "nest-stocks": "The stocks are the quotes and rack pieces of the pipe.";
    NestStockUsable = "nest-stock-usable": "A stock's usable length is the judge's own.";
    NestStockCost = "nest-stock-cost": "A stock's cost is the judge's own.";
    NestStockLimit = "nest-stock-limit": "A stock's limit is what is to be had.";
    NestStockLength = "nest-stock-length": "A stock's length is the joint's.";
    NestStockServes = "nest-stock-serves": "A stock serves the classes that can wait for it.";
    NestStockPrice = "nest-stock-price": "A stock's price before tax is the quote's.";
    StockPaysAsDrop = "stock-pays-as-drop": "A joint costs more than its credit uncut.";
    NestItems = "nest-items": "The items are the parts that are not spliced.";
    NestGroups = "nest-groups": "The groups are the sets of spliced lines.";
    NestGroupMap = "nest-group-map": "Each set stands in one group.";
    NestCharges = "nest-charges": "The charges are those of the suppliers.";
    NestChargeNames = "nest-charge-names": "No two charges share a name.";
    NestPatterns = "nest-patterns": "Joints hold what the answer's patterns say.";
    CertificatePools = "certificate-pools": "There is one answer for each pool, and no name twice.";
    CertificateSize = "certificate-size": "Exact arithmetic can hold every number.";
    CertificateAim = "certificate-aim": "The weights of another aim than money fit.";
    CertificateCharges = "certificate-charges": "Charges name stocks that exist and are answered.";
    CertificateRange = "certificate-range": "The answer keeps the counts a price allows.";
    CertificatePattern = "certificate-pattern": "A pattern fits its stock.";
    CertificateStockLimit = "certificate-stock-limit": "No more is taken of a stock than there is.";
    CertificateConfiguration = "certificate-configuration": "A configuration keeps the rules of its group.";
    CertificateGroupCount = "certificate-group-count": "Every gate of a group is made or missing.";
    CertificateItemCount = "certificate-item-count": "Every item is cut its count or missing.";
    CertificatePieceCount = "certificate-piece-count": "Pieces cut are those of the configurations.";
    CertificateCost = "certificate-cost": "The cost is that of patterns, splices and charges.";
    CertificateShort = "certificate-short": "An answer is short where something is missing.";
    CertificateStatus = "certificate-status": "Proved means bound = cost, and no bound is over the cost.";
    CertificateDuals = "certificate-duals": "Duals have the right number, sign and size.";
    CertificateTree = "certificate-tree": "The tree of splits covers every answer.";
    CertificateBound = "certificate-bound": "The duals give the bound that is claimed.";
    CertificatePlan = "certificate-plan": "The joints and money of a plan.json are the answer's.";
    FileForm = "file-form": "A plan.json is of a form that is read, with its problem's mark and kerf.";
    FileIndex = "file-index": "Every index in a plan.json points at something.";
    FileLength = "file-length": "Ticks, value and print of a length say the same.";
    FileGates = "file-gates": "Leaf, bay lines and rollers of a gate agree with its lengths.";
    FileParts = "file-parts": "Parts are counted by their gates, cut at the nearest mark, and weighed.";
    FilePieces = "file-pieces": "Each piece of each part is cut once.";
    FilePiece = "file-piece": "A piece has its part's mark, length and pipe.";
    FileNumbers = "file-numbers": "Joints are numbered from 1 in order.";
    FileSource = "file-source": "A joint names what it is cut from; trims are the saw's.";
    FileRunning = "file-running": "Running marks follow from saw lengths and kerf.";
    FileRemainder = "file-remainder": "Leftover, last cut, drop and floor piece are what remains.";
    FileKept = "file-kept": "Each kept drop is listed once, under a tag of its own, at its credit.";
    FileSpliced = "file-spliced": "Spliced lines are listed once, in the answer's pieces.";
    FileSplice = "file-splice": "A splice stands where its pieces put it, inside its window.";
    FileStatus = "file-status": "The status of a pipe is its answer's.";
    FileOutcomeMoney = "file-outcome-money": "A pipe's money is its answer's, printed to the cent.";
    FilePriced = "file-priced": "There is money just where every price is known.";
    FileCounts = "file-counts": "Joints, splices and kept drops are counted.";
    FileWaste = "file-waste": "Waste adds up by its definitions.";
    FileBuy = "file-buy": "A line of the buy list multiplies and adds up.";
    FileSpares = "file-spares": "Spares cost what their quote does.";
    FileFees = "file-fees": "The fees are the answer's charges.";
    FileLedger = "file-ledger": "Each line of the ledger is the sum of what it is made of.";
    FileGateCosts = "file-gate-costs": "The costs of the gates add up to the total.";
    FileReferences = "file-references": "No way of working beats the bound, or has a price and failed.";
    FileDone = "file-done": "A gate is complete after the joint of its last piece.";
    FileSittings = "file-sittings": "Every joint is sawn at one saw; minutes add up.";
    FileKits = "file-kits": "A kit's advice cuts both its horizontals, each piece once.";
}
