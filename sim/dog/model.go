package dog

import (
	"math"

	"cuewalk/course/geom"
)

// The figures of the dog that no team file sets. Each says what it is, its unit, and where
// it comes from: an id of the table of sources (P: inside a published range), or C: common
// practice or fitted, no source. C figures were fitted together, to the case files and the
// seen rounds below testdata, never to one of them.

// What the handler's parts weigh: exponents of the pull. Order: gesture over word (V5, V6),
// body first (common practice); values C.
const (
	motionLoud   = 1.5 // at fullMotion and over
	chestLoud    = 2.0
	drawLoud     = 2.5  // chest turned to the dog
	armLoud      = 2.2  // pointing
	handLoud     = 1.5  // of the hand that draws in or sends away
	sideLoud     = 1.0  // of the arm that shows which side to come to: see wordLoud
	wordLoud     = 2.4  // times how well the dog knows it: 73.6 % follow the gesture against it (V5)
	namedGain    = 1.5  // times how well it knows names: share a named kind gains
	fullMotion   = 3.5  // m/s
	chestCarried = 0.8  // share of a chest carried along that says no more than the running
	carriedAs    = 0.5  // of its loudness that is then motion
	pulledIn     = 0.35 // how far a pulling arm turns a handler to the dog, 0..1
	handlerFocus = 1.5  // less the dog's focus: what this dog makes of handlers
	outAhead     = 0.7  // a dog sent out goes on so much for one aside
	toldHeld     = 0.6  // s of running for which a word or a push counts in full: it is a moment, no state
	toldFade     = 0.4  // s over which it is then forgotten
	driveAlone   = 0.6  // 0..1: the pace of a dog that sees nobody
)

// A running handler: cosines of his bearing, and seconds ahead of him (C).
var (
	chaseNone = math.Cos(65 * math.Pi / 180) // beside the dog it runs along with him
	chaseFull = math.Cos(30 * math.Pi / 180) // before it, it runs after him
	chaseLead = 0.5
)

// Where a dog that is drawn in comes to, in metres and seconds (C).
const (
	spotBeside   = 0.7  // m to the side of the cue arm
	squareOn     = 1.0  // less that share for a dog he faces square on
	spotPast     = 1.0  // m past the spot: what lies farther, he does not draw it to
	spotFade     = 2.5  // m over which that fades
	drawRefuses  = 0.5  // of its loudness: what drawing in takes from all that lies elsewhere
	spotBefore   = 0.3  // m before the chest
	spotLead     = 0.5  // s ahead of a moving handler
	betweenAbout = 0.01 // m of way about for what stands between the dog and the spot to count as on the way there
	spotReached  = 0.8  // m from the spot, it says less and less
)

// How narrow the parts are: 1 over the square of an angle in radians (C).
var (
	motionBell = bell(25)
	towardBell = bell(15)
	pointBell  = bell(12)
	acrossBell = bell(5)                      // across his line from the working arm
	sideWidth  = math.Sin(15 * math.Pi / 180) // a word names a side in full beyond this
	wordAside  = geom.Deg(60)                 // where a side word sends a dog
)

// Pointing (published: dogs take what is pointed to, V5; values C).
var (
	pointNothing  = 0.15                         // weight of the way itself beside what is pointed at
	pointFloor    = 0.3                          // share that pointing at nothing still leads
	pointedShare  = 0.5                          // of an opening that counts as pointed at
	leastHeed     = 0.1                          // of its pull that stays to a thing however he points elsewhere (C)
	nearHeed      = 0.35                         // on top of that, of a thing near by
	heedNear      = 2.5                          // m: so near
	heedFar       = 6.0                          // m: and no longer near
	alongFar      = 12.0                         // m: farther off, running towards a thing says nothing of it
	faintPointing = 0.01                         // less is no pointing
	beforeHim     = 2.5                          // m this side of him: what lies there he does not refuse by pointing at nothing
	elsewhereNone = math.Cos(30 * math.Pi / 180) // off the dog's line: pointing at nothing refuses nothing
	elsewhereFull = math.Cos(80 * math.Pi / 180) // and here it refuses all that lies ahead
)

// Reading.
const (
	anticipation = 0.25 // s: how far ahead a dog reads a moving body (C)
	persistence  = 0.05 // s: how long it takes to let go of what it read (C; V9: a dog's looks last longer than a person's)
	clearRange   = 16.0 // m at which a handler counts half (C)
	behindLoss   = 0.6  // share lost of a handler beyond the field of view (V1; C)
	dim          = 0.25 // radians inside the edge of the field of view at which he begins to fade (C)
)

// What pulls.
const (
	baseRate  = 2.0  // per second: how fast one obstacle in front gets an idle dog (C)
	focusBase = 0.25 // of it for a dog that only watches its handler (C)
	focusGain = 1.5  // times focus on top (C)
	airPull   = 0.13 // pull while in the air, of the ground's (C)
	lostPull  = 0.25 // pull for a dog that comes out of the dark and looks for its handler first, of the usual (C)
	faint     = 2e-3 // per second: what pulls less is not looked at
	afterExit = 1.0  // s an obstacle just taken does not pull (C)
	tails     = 3.5  // attention widths beyond which nothing is noticed (C)
	behind    = 1.45 // m behind its middle at which a dog still notices an opening (C)
	nearRange = 3.5  // m: nearer than this an opening cannot be put off (C)
	farPower  = 6.0  // how steeply (C)
	farRange  = 5.3  // m: beyond, an opening counts less and less (C)
)

// Going on of its own accord. A dog that sees nothing to do before it slows down and looks
// about (common practice, no source; values C).
const (
	seekWidth  = 1.0  // by how much wider it then looks, at most
	seekWork   = 0.25 // per second: less pull than that where it goes is nothing to do
	seekRise   = 0.25 // s until it looks about
	seekFall   = 0.1  // s until it has found something
	seekPace   = 0.6  // of its extended speed: it goes on no faster
	ownLoud    = 2.0  // how loud its own interest is beside the handler's parts (C)
	ownLanding = 0.3  // of it in how it lands: a turn read before the take-off is for the handler to ask (C)
	ownBase    = 0.3  // of it for a dog that only watches its handler (C)
	ownHalf    = 0.5  // pull per second at which interest is half as loud as it gets (C)
)

func bell(degrees float64) float64 {
	return (180 / math.Pi / degrees) * (180 / math.Pi / degrees)
}

// Moving.
const (
	barPace     = 0.84 // of its extended speed at which a dog meets a bar on the ground (C)
	barCost     = 0.10 // less that for each withers' height of bar (J4; the slope is C)
	metCalm     = 0.4  // 0 collected .. 1 extended: how weaves, contacts and the table are met with a calm handler (C)
	metDriven   = 0.65 // the same with one who drives the dog on (C)
	tunnelGain  = 1.0  // m/s a dog gains in a tunnel at most (C)
	turnRoom    = 3.0  // m over which a dog means to come round to where it wants: it goes no faster than that allows (C)
	leadFull    = 1.5  // strength at which a lead is followed in full (C)
	leadFaint   = 0.5  // strength below which it turns no landing (C)
	turnFrom    = 0.3  // radians off its heading at which a lead begins to ask for a turn (C)
	turnFull    = 0.9  // and asks in full (C)
	bendTime    = 0.16 // s to enter the tightest arc: half a stride (T7)
	followRoom  = 0.8  // m at least over which a dog comes onto a heading (C)
	followTime  = 0.3  // s of way over which it does (C)
	comfort     = 4.0  // m/s2 at which a dog comes down to a standing handler (C)
	nearHandler = 2.2  // m from him it is collected (C)
	swingMost   = 0.4  // radians by which a dog with room swings out to come to an opening rightly (C)
	swingRoom   = 0.25 // tightest radius over range below which it has all the room it wants (C)
	swingNone   = 0.6  // and beyond which it has none
	swingAside  = 1.0  // m beside an opening from which a dog can still swing round before it
	swingPast   = 0.8  // m past its plane at which it no longer does
	easyLine    = 0.35 // radians: within them a dog jumps on the line it has (C)
	goesIn      = 0.3  // m before a mouth, ramp or pole at which the trunk counts as in (C)
	tooNear     = 0.2  // m before the bar at the latest take-off: nearer than meant, it jumps all the same (C)
)

// Being called off.
const (
	CallOffRoom = 2.5         // m beyond its take-off at which a dog can still be called off (C)
	callOffTurn = math.Pi / 3 // radians the lead must differ from what it goes for (C)
	callOffRate = 5.0         // per second, times strength less 1 (C)
)
