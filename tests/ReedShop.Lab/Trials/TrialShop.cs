using ReedShop.Planning.Bench;
using ReedShop.Planning.Routes;
using ReedShop.Planning.Scheduling;

namespace ReedShop.Lab.Trials;

/// <summary>One invented shop under one way of promising, day by day.</summary>
internal sealed class TrialShop
{
    private const int FewBlanks = 300;

    /// <summary>A Friday like any other; no trial hangs on it.</summary>
    public static readonly DateOnly FirstDay = new(2027, 1, 1);
    private static readonly PlanBudget Budget = new(Rounds: 40);

    private readonly Book book;
    private readonly Days days;
    private readonly Nature nature;
    private readonly IPromising promising;
    private readonly Keeping keeping;
    private readonly Shock? shock;
    private readonly bool buyersAlwaysAccept;

    private TrialShop(ulong seed, Premises premises, Rule rule, TrialPlan plan)
    {
        book = new Book(premises) { Today = FirstDay };
        days = new Days(seed, plan.Days, plan.Hardship, plan.Shock);
        shock = plan.Shock;
        buyersAlwaysAccept = plan.AlwaysAccepted;
        nature = new Nature(seed, plan.Hardship);
        promising = rule.Over(book);
        keeping = new Keeping(book, promising);
    }

    public static TrialResult Run(ulong seed, Rule rule, TrialPlan plan)
    {
        var atTheEnd = Live(seed, rule, plan, out var wishes);
        return TrialResult.Of(seed, atTheEnd, FirstDay, plan.Days, wishes);
    }

    /// <summary>The book at the end, and how many wishes there were.</summary>
    public static Book Live(ulong seed, Rule rule, TrialPlan plan, out int wishes)
    {
        var premises = Premises.Draw(seed, Demand.OrdersPerYear(seed));
        var asked = Demand.Of(seed, premises, plan.Days, plan.Shock?.DoubledFrom).ToLookup(wish => wish.Day);
        wishes = asked.Sum(day => day.Count());
        var shop = new TrialShop(seed, premises, rule, plan);
        for (var day = 0; day < plan.Days; day++)
        {
            shop.Live(day, [.. asked[day]]);
        }

        return shop.book;
    }

    private void Live(int day, Wish[] wishes)
    {
        book.Today = FirstDay.AddDays(day);
        book.EveningIsOver = false;
        BeginMorning(day);
        foreach (var wish in wishes.Where(wish => wish.Hour < Premises.EveningHour))
        {
            Ask(wish);
        }

        new Evening(book, nature, keeping).Work(book.Premises.Bench.OpenMinutes(book.Today) * days.Offers(day));
        if (book.HasNews)
        {
            // Blanks that wait for another evening have no place until then, and the next buyer would be told it is free.
            Replan();
        }

        foreach (var wish in wishes.Where(wish => wish.Hour >= Premises.EveningHour))
        {
            Ask(wish);
        }
    }

    private void BeginMorning(int day)
    {
        if (shock?.Day == day)
        {
            shock.SetIn(book, nature);
        }

        SendParcels();
        BuyCane();
        if (day > 0)
        {
            NoteNight(days.IsDamp(day - 1));
        }

        keeping.RetryUnserved();
        if (book.HasNews || book.OpenTrays.Any(IsUndone))
        {
            Replan();
        }
    }

    private void SendParcels()
    {
        if (book.Premises.Ships.Leaves(book.Today))
        {
            foreach (var order in book.OpenOrders.Where(order => order.ReadyOn < book.Today))
            {
                order.ShippedOn = book.Today;
            }
        }
    }

    /// <summary>The maker buys seasoned cane, and never too late.</summary>
    private void BuyCane()
    {
        foreach (var model in book.Premises.Models)
        {
            if (book.Cane.Where(lot => lot.Model == model.Name).Sum(lot => lot.BlanksLeft) < FewBlanks)
            {
                book.BuyLot(model.Name);
            }
        }
    }

    /// <summary>Only nights that a batch needed do harm: blanks that rest longer have dried.</summary>
    private void NoteNight(bool isDamp)
    {
        var drying = book.OpenTrays.Where(IsDrying).ToArray();
        if (drying.Length > 0)
        {
            book.Nights.Add(new RackNight(book.Today.AddDays(-1), isDamp));
        }

        foreach (var tray in drying.Where(_ => isDamp))
        {
            tray.DampNights++;
            book.HasNews = true;
        }
    }

    private bool IsDrying(TrialTray tray) =>
        tray.LastWorkedOn is not null
        && tray.Batch.Route[tray.NextStep - 1].Then is Follow.Dry
        && BenchWorkload.FirstDay(tray) >= book.Today;

    private bool IsUndone(TrialTray tray) =>
        tray.Days.Count == 0
        || tray.Days.Where(day => day.Key.LastStep >= tray.NextStep).Min(day => day.Value) < book.Today;

    private void Replan()
    {
        promising.RenewDueDays();
        var bench = new BenchWorkload(book);
        bench.Keep(Planner.Replan(bench.Work, bench.Standing, Budget));
        book.HasNews = false;
    }

    private void Ask(Wish wish)
    {
        var (promise, reason) = promising.Promise(wish.Request);
        if (promise is null)
        {
            book.Refused.Add(reason!.Value);
        }
        else if (buyersAlwaysAccept || promise.ShipBy.DayNumber - book.Today.DayNumber <= wish.LongestWait)
        {
            keeping.Accept(wish, promise);
        }
    }
}
