"""English words made of two that coaching uses too, such as ``workout``: they are not run together.

From the 40,000 most frequent words of the English frequency dictionary that the package symspellpy 6.10.1
carries (MIT licence): those that part into two words of :mod:`sitegen.draft.known` or of exercise names.
"""

from sitegen.draft.trade import words_in

COMPOUNDS = words_in(
    """
    abound abounds across afloat airbag airbags airlift airline airship airshow airtime airwaves
    airway airways alight antibody antistatic anybody anyone anyplace anytime anyway anyways armband
    armchair armchairs armrest around asides assets astray backdoor backdrop backfire background
    backlight backpack backrest backseat backside backup backups backwater backwaters bandit bandits
    bedrock bedside bedtime beforehand behalf behold belong belongs beside besides betray bigfoot
    bodywork bottleneck bottlenecks bracelet bracelets bumper button byways callback callbacks
    camelback carryover catwalk changeover childlike chopper chopsticks closeout closeouts closeups
    comeback cornerback counterpart counterpoint counterpunch crossfire crossover crossovers crosstalk
    crosswalk daybed daylight daytime deadline diamondback diamondbacks digits dipper dogwood doorstep
    doorway doorways downhill download downloaded downloads downright downside downstairs downtime
    downturn dragon driveway driveways dropkick dropout dropouts dropper endpoint endpoints everybody
    everyday everyone everything everywhere facelift firearm firearms firebird firebox firefly
    fireplace fireplaces fireside firewall firewalls firewood firework firsthand flatbed flathead
    flatten foothill foothills foothold footsteps footwork foursome frontline goodwill groundwater
    halftime halfway hammerhead handbag handbags handmade handout handouts handover handset handsets
    handsome hardback hardbound hardwood hardwoods headband headlight headlights headlong headsets
    headwaters headway heavyweight helpline herewith highlight highlights highpoint highway highways
    hillside hilltop hopper implies impose imposes impress impressed inbound indoor indoors innermost
    inside insides instance instances instep kickback kickboxing kickoff kickstart lather leftover
    leftovers legend lightweight lineups longstanding longtime lookout loveseat lowdown makeover
    makeovers makeshift meantime moreover mountainside neckline newsprint nobody offend offline offset
    offsets offside onetime ongoing outback outbound outcome outdoor outdoors outermost outgoing
    outlet outlets outline outlook outlying output outreach outright outrun outset outside outstanding
    overall overcame overcome overdrive overfull overhead overload overloaded overlook overlooking
    overlying overpass overrun overruns oversee overtake overtime overturn overuse overweight palmtop
    passover pectin peruse pullout pullover raceway railway railways rollback rollover rollovers
    rosewood roundabout roundup roundups runaway rundown runoff runway runways secondhand setback
    setbacks setups shorthand shortlist shortstop shortwave showdown showplace showtime sidekick
    sideline sideshow sidestep sidewalk sidewalks sidewall sideways slideshow slowdown smalltalk
    softwood somebody someone someones someplace sometime sometimes speedup speedway spotlight
    spotlights stairway standby standoff standout standpoint standstill standup starlet starlets
    starlight startups stepper stopover stopper stopwatch straightforward surefire takeoff takeout
    takeover takeovers therefrom therewith thesis throughout timeline timeout timeouts topper
    touchdown touchdowns tryout tryouts turnout turnover turnovers turnpike underdog underdogs
    undergoing underlying underside understand understanding understandings understands underwater
    underway underweight underwood upfront uphill uphold upholding upholds uplift upload uploaded
    uploads uppermost upsets upside upstairs walkabout walkway walkways wallis watchdog waterfront
    waterside waterway waterways wavefront wavelet wavelets wayside wether withdrawing withhold
    withholding within without withstand woodwork workbench workload workloads workout workouts
    workplace workplaces
    """
)
