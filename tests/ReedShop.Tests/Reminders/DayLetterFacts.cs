using ReedShop.Reminders;
using ReedShop.Workshop;

namespace ReedShop.Tests.Reminders;

public sealed class DayLetterFacts
{
    private static readonly DateOnly Monday = new(2027, 3, 1);

    [Fact]
    public void What_stays_for_another_day_is_told_with_its_reason()
    {
        var day = new DayView(Monday, [], [], [new CarriedView("7", "profile", 1, "no time left")], []);

        Assert.Equal(
            "Harbour reeds, Monday 1 March 2027\n\nNothing is planned for today.\n\nNot today:\n7  profile, 1 blank: no time left\n",
            DayLetter.Text(day, "Harbour reeds")
        );
    }
}
