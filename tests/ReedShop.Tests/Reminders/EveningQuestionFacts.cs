using System.Net;
using ReedShop.Tests.Workshop;

namespace ReedShop.Tests.Reminders;

public sealed class EveningQuestionFacts
{
    private const string Kind = "what-was-done";
    private const string Tick = "evening-question";

    [Fact]
    public async Task What_is_not_recorded_is_asked_once_when_the_bench_closes()
    {
        await using var shop = await Opened();

        MakersMail.SetTime(shop, 1, 20, 59);
        await shop.Tick(Tick);
        Assert.Empty(await MakersMail.Waiting(shop, Kind));
        MakersMail.SetTime(shop, 1, 21);
        await shop.Tick(Tick);
        await shop.Tick(Tick);
        await shop.Restart();
        await shop.Tick(Tick);

        var letter = Assert.Single(await MakersMail.Waiting(shop, Kind));
        Assert.Equal("What was done? Monday 1 March 2027", letter.Title);
        Assert.Contains("Batch 1, 10 blanks: soak, flatten\n", letter.Text, StringComparison.Ordinal);
        Assert.Contains($"/bench/record/1/1\n", letter.Text, StringComparison.Ordinal);
        Assert.True(letter.Asked);
    }

    [Fact]
    public async Task Its_link_opens_the_form_of_the_step_on_the_page_of_the_day()
    {
        await using var shop = await Opened();
        using var owner = await Visitor.Owner(shop);
        MakersMail.SetTime(shop, 1, 21);
        var before = await shop.GetJson("/api/batches");

        var answer = await owner.Get("/bench/record/1/1");

        Assert.Equal(HttpStatusCode.SeeOther, answer.StatusCode);
        Assert.Equal("/bench/today#step-1-1", answer.Headers.Location!.ToString());
        var page = await owner.Read("/bench/today");
        var step = page[page.IndexOf("id=\"step-1-1\"", StringComparison.Ordinal)..];
        Assert.Contains("Done: soak", step, StringComparison.Ordinal);
        Assert.Equal(before.ToString(), (await shop.GetJson("/api/batches")).ToString());
    }

    [Fact]
    public async Task Whoever_is_not_signed_in_is_led_there_by_way_of_the_sign_in()
    {
        await using var shop = await Opened();
        (await Visitor.Owner(shop)).Dispose();
        using var maker = new Visitor(shop);
        MakersMail.SetTime(shop, 1, 21);

        var asked = await maker.Get("/bench/record/1/1");
        Assert.Equal("/sign-in?returnUrl=%2Fbench%2Frecord%2F1%2F1", asked.Headers.Location!.PathAndQuery);
        var signedIn = await maker.SignIn(Visitor.Password, "/bench/record/1/1");
        Assert.Equal("/bench/record/1/1", signedIn.Headers.Location!.ToString());
    }

    [Fact]
    public async Task The_next_morning_it_leads_to_the_batch_and_at_last_to_the_day()
    {
        await using var shop = await Opened();
        using var owner = await Visitor.Owner(shop);
        var batch = (await shop.GetJson("/api/batches")).GetProperty("items")[0].GetProperty("id").GetString()!;
        await AtTheBench.Record(shop, batch, 1, AtTheBench.Kept(10));

        var passed = await owner.Get("/bench/record/1/1");
        Assert.Equal($"/bench/batches/{batch}", passed.Headers.Location!.ToString());
        var unknown = await owner.Get("/bench/record/99/1");
        Assert.Equal("/bench/today", unknown.Headers.Location!.ToString());
    }

    [Fact]
    public async Task An_evening_that_was_recorded_is_not_asked_about()
    {
        await using var shop = await Opened();
        var batch = (await shop.GetJson("/api/batches")).GetProperty("items")[0].GetProperty("id").GetString()!;
        MakersMail.SetTime(shop, 1, 20);
        await AtTheBench.Record(shop, batch, 1, AtTheBench.Kept(10));
        await AtTheBench.Record(shop, batch, 2, AtTheBench.Kept(10));

        MakersMail.SetTime(shop, 1, 21);
        await shop.Tick(Tick);

        Assert.Empty(await MakersMail.Waiting(shop, Kind));
    }

    [Fact]
    public async Task A_day_that_is_over_is_not_asked_about()
    {
        await using var shop = await Opened();

        MakersMail.SetTime(shop, 2, 0, 1);
        await shop.Tick(Tick);

        Assert.Empty(await MakersMail.Waiting(shop, Kind));
    }

    private static async Task<ShopHost> Opened()
    {
        var shop = await ShopHost.Start();
        await shop.PutJson("/api/shop", ExampleShop.Settings);
        await ExampleShop.StartTenBlanks(shop);
        return shop;
    }
}
