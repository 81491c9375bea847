#include "drag/drag.h"

#include "drag/range.h"

struct drag_window drag_window_of(double low, double high)
{
    if (!not_below_zero(low) || !above_zero(high) || low > high)
        return (struct drag_window){NAN, NAN, NAN};
    return (struct drag_window){.low = low, .aim = low + (high - low) / 2, .high = high};
}

struct drag_window drag_window_as_pull(struct drag_window drag, double radius)
{
    return (struct drag_window){.low = drag_to_pull(drag.low, radius),
                                .aim = drag_to_pull(drag.aim, radius),
                                .high = drag_to_pull(drag.high, radius)};
}
