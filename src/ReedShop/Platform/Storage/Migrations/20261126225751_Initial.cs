using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

#pragma warning disable CA1814 // Prefer jagged arrays over multidimensional

namespace ReedShop.Platform.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "answers",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    Caller = table.Column<string>(type: "TEXT", nullable: false),
                    Path = table.Column<string>(type: "TEXT", nullable: false),
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    BodyHash = table.Column<string>(type: "TEXT", nullable: false),
                    StoredUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Status = table.Column<int>(type: "INTEGER", nullable: false),
                    Location = table.Column<string>(type: "TEXT", nullable: true),
                    ETag = table.Column<string>(type: "TEXT", nullable: true),
                    Body = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_answers", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUsers",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    UserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedUserName = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    Email = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    NormalizedEmail = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    EmailConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    PasswordHash = table.Column<string>(type: "TEXT", nullable: true),
                    SecurityStamp = table.Column<string>(type: "TEXT", nullable: true),
                    ConcurrencyStamp = table.Column<string>(type: "TEXT", nullable: true),
                    PhoneNumber = table.Column<string>(type: "TEXT", maxLength: 256, nullable: true),
                    PhoneNumberConfirmed = table.Column<bool>(type: "INTEGER", nullable: false),
                    TwoFactorEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    LockoutEnd = table.Column<DateTimeOffset>(type: "TEXT", nullable: true),
                    LockoutEnabled = table.Column<bool>(type: "INTEGER", nullable: false),
                    AccessFailedCount = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUsers", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "batches",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    Run = table.Column<int>(type: "INTEGER", nullable: false),
                    Number = table.Column<string>(type: "TEXT", nullable: false),
                    Root = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    CaneLot = table.Column<string>(type: "TEXT", nullable: true),
                    Aim = table.Column<int>(type: "INTEGER", nullable: true),
                    FirstStep = table.Column<int>(type: "INTEGER", nullable: false),
                    LastStep = table.Column<int>(type: "INTEGER", nullable: false),
                    NextStep = table.Column<int>(type: "INTEGER", nullable: false),
                    Started = table.Column<int>(type: "INTEGER", nullable: false),
                    Blanks = table.Column<int>(type: "INTEGER", nullable: false),
                    RedoOf = table.Column<int>(type: "INTEGER", nullable: true),
                    Stage = table.Column<string>(type: "TEXT", nullable: false),
                    PlannedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    NotBefore = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    LastWorkedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    LastEndedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    DampNights = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_batches", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "calendar_entries",
                columns: table => new
                {
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Subject = table.Column<string>(type: "TEXT", nullable: false),
                    Content = table.Column<string>(type: "TEXT", nullable: false),
                    LastDay = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Stage = table.Column<string>(type: "TEXT", nullable: false),
                    Sequence = table.Column<int>(type: "INTEGER", nullable: false),
                    CreatedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ChangedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_calendar_entries", x => x.Name);
                }
            );

            migrationBuilder.CreateTable(
                name: "calendar_link",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Digest = table.Column<string>(type: "TEXT", nullable: true),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    WithNights = table.Column<bool>(type: "INTEGER", nullable: false),
                    Realm = table.Column<string>(type: "TEXT", nullable: false),
                    FactsVersion = table.Column<long>(type: "INTEGER", nullable: false),
                    PlanDay = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_calendar_link", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "cane_lots",
                columns: table => new
                {
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Supplier = table.Column<string>(type: "TEXT", nullable: false),
                    Harvest = table.Column<int>(type: "INTEGER", nullable: false),
                    SeasonedFrom = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    BlanksLeft = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_cane_lots", x => x.Key);
                }
            );

            migrationBuilder.CreateTable(
                name: "damp_nights",
                columns: table => new
                {
                    BatchId = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<DateOnly>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_damp_nights", x => new { x.BatchId, x.Date });
                }
            );

            migrationBuilder.CreateTable(
                name: "DataProtectionKeys",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    FriendlyName = table.Column<string>(type: "TEXT", nullable: true),
                    Xml = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_DataProtectionKeys", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "disputes",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    PaymentId = table.Column<string>(type: "TEXT", nullable: false),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", nullable: false),
                    Status = table.Column<string>(type: "TEXT", nullable: false),
                    OpenedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_disputes", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "drawer_moves",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Strength = table.Column<int>(type: "INTEGER", nullable: false),
                    Condition = table.Column<string>(type: "TEXT", nullable: false),
                    Change = table.Column<int>(type: "INTEGER", nullable: false),
                    Why = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_drawer_moves", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "facts",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Version = table.Column<long>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_facts", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "grade_records",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    BatchId = table.Column<string>(type: "TEXT", nullable: false),
                    Root = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    CaneLot = table.Column<string>(type: "TEXT", nullable: true),
                    Aim = table.Column<int>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Final = table.Column<bool>(type: "INTEGER", nullable: false),
                    Grades = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_grade_records", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "inbox",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    Source = table.Column<string>(type: "TEXT", nullable: false),
                    EventId = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    About = table.Column<string>(type: "TEXT", nullable: false),
                    ArrivedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    WorkedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    NextTryUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LastError = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_inbox", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "journal",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Who = table.Column<string>(type: "TEXT", nullable: false),
                    Subject = table.Column<string>(type: "TEXT", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_journal", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "letter_settings",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Stopped = table.Column<string>(type: "TEXT", nullable: false),
                    QuietFrom = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    QuietUntil = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    CaneWeeks = table.Column<int>(type: "INTEGER", nullable: false),
                    Secret = table.Column<string>(type: "TEXT", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_letter_settings", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "markers",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: true),
                    What = table.Column<string>(type: "TEXT", maxLength: 100, nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_markers", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "models",
                columns: table => new
                {
                    Key = table.Column<string>(type: "TEXT", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Instrument = table.Column<string>(type: "TEXT", nullable: false),
                    Cut = table.Column<string>(type: "TEXT", nullable: false),
                    Strengths = table.Column<string>(type: "TEXT", nullable: false),
                    PriceMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    GramsPerReed = table.Column<decimal>(type: "TEXT", nullable: false),
                    Route = table.Column<string>(type: "TEXT", nullable: false),
                    Selling = table.Column<bool>(type: "INTEGER", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_models", x => x.Key);
                }
            );

            migrationBuilder.CreateTable(
                name: "orders",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    QuoteId = table.Column<string>(type: "TEXT", nullable: false),
                    Stage = table.Column<string>(type: "TEXT", nullable: false),
                    BuyerName = table.Column<string>(type: "TEXT", nullable: false),
                    BuyerEmail = table.Column<string>(type: "TEXT", nullable: false),
                    Address = table.Column<string>(type: "TEXT", nullable: false),
                    Language = table.Column<string>(type: "TEXT", nullable: false),
                    PriceMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    ShippingMinor = table.Column<long>(type: "INTEGER", nullable: true),
                    DiscountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Voucher = table.Column<string>(type: "TEXT", nullable: true),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    AcceptedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ShipBy = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    FirstShipBy = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    FirstChance = table.Column<double>(type: "REAL", nullable: false),
                    MovedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    WasGivenUp = table.Column<bool>(type: "INTEGER", nullable: false),
                    IsOwnDate = table.Column<bool>(type: "INTEGER", nullable: false),
                    CancelledOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    BegunOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    NeedBy = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    PartsAreFine = table.Column<bool>(type: "INTEGER", nullable: false),
                    Parcels = table.Column<string>(type: "TEXT", nullable: false),
                    FinishBy = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Confidence = table.Column<double>(type: "REAL", nullable: false),
                    Chance = table.Column<double>(type: "REAL", nullable: false),
                    FirstTry = table.Column<double>(type: "REAL", nullable: false),
                    Neighbours = table.Column<int>(type: "INTEGER", nullable: false),
                    CameShort = table.Column<bool>(type: "INTEGER", nullable: false),
                    PaysBeforeShipping = table.Column<bool>(type: "INTEGER", nullable: false),
                    PaidUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    ShippedOn = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Tracking = table.Column<string>(type: "TEXT", nullable: true),
                    Reply = table.Column<string>(type: "TEXT", nullable: true),
                    ReplyNote = table.Column<string>(type: "TEXT", nullable: true),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_orders", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "outbox",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Subject = table.Column<string>(type: "TEXT", nullable: false),
                    To = table.Column<string>(type: "TEXT", nullable: false),
                    Title = table.Column<string>(type: "TEXT", nullable: false),
                    Text = table.Column<string>(type: "TEXT", nullable: false),
                    Language = table.Column<string>(type: "TEXT", nullable: false),
                    Asked = table.Column<bool>(type: "INTEGER", nullable: false),
                    StopLink = table.Column<string>(type: "TEXT", nullable: true),
                    CreatedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    SentUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    NextTryUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LastError = table.Column<string>(type: "TEXT", nullable: true),
                    MessageId = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_outbox", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "outlooks",
                columns: table => new
                {
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    FactsVersion = table.Column<long>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Chance = table.Column<double>(type: "REAL", nullable: false),
                    LikelyShipDay = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    SureShipDay = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    Causes = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_outlooks", x => x.OrderId);
                }
            );

            migrationBuilder.CreateTable(
                name: "paper_numbers",
                columns: table => new
                {
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Last = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_paper_numbers", x => x.Kind);
                }
            );

            migrationBuilder.CreateTable(
                name: "papers",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    Kind = table.Column<string>(type: "TEXT", nullable: false),
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    OrderNumber = table.Column<int>(type: "INTEGER", nullable: false),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    IssuedOn = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    PaymentId = table.Column<string>(type: "TEXT", nullable: true),
                    RefundId = table.Column<string>(type: "TEXT", nullable: true),
                    IsGoodwill = table.Column<bool>(type: "INTEGER", nullable: false),
                    Content = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_papers", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "past_evenings",
                columns: table => new
                {
                    Date = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    PlannedMinutes = table.Column<int>(type: "INTEGER", nullable: false),
                    DoneMinutes = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_past_evenings", x => x.Date);
                }
            );

            migrationBuilder.CreateTable(
                name: "past_grades",
                columns: table => new
                {
                    Batch = table.Column<string>(type: "TEXT", nullable: false),
                    Strength = table.Column<int>(type: "INTEGER", nullable: false),
                    Count = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_past_grades", x => new { x.Batch, x.Strength });
                }
            );

            migrationBuilder.CreateTable(
                name: "past_steps",
                columns: table => new
                {
                    Batch = table.Column<string>(type: "TEXT", nullable: false),
                    Step = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Aim = table.Column<int>(type: "INTEGER", nullable: true),
                    CaneLot = table.Column<string>(type: "TEXT", nullable: false),
                    Date = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    In = table.Column<int>(type: "INTEGER", nullable: false),
                    Out = table.Column<int>(type: "INTEGER", nullable: false),
                    Redo = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_past_steps", x => new { x.Batch, x.Step });
                }
            );

            migrationBuilder.CreateTable(
                name: "pay_sessions",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    Part = table.Column<string>(type: "TEXT", nullable: false),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ExpiresUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Attempt = table.Column<int>(type: "INTEGER", nullable: false),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    StripeId = table.Column<string>(type: "TEXT", nullable: true),
                    Url = table.Column<string>(type: "TEXT", nullable: true),
                    AskNextUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LastError = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pay_sessions", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "payments",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    Way = table.Column<string>(type: "TEXT", nullable: false),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    StripeId = table.Column<string>(type: "TEXT", nullable: true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_payments", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "pegs",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    LinePosition = table.Column<int>(type: "INTEGER", nullable: false),
                    BatchRoot = table.Column<string>(type: "TEXT", nullable: true),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Strength = table.Column<int>(type: "INTEGER", nullable: false),
                    Quantity = table.Column<int>(type: "INTEGER", nullable: false),
                    Cover = table.Column<double>(type: "REAL", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_pegs", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "plan_key",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    FactsVersion = table.Column<long>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_plan_key", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "planned_sittings",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    BatchId = table.Column<string>(type: "TEXT", nullable: false),
                    FirstStep = table.Column<int>(type: "INTEGER", nullable: false),
                    LastStep = table.Column<int>(type: "INTEGER", nullable: false),
                    Part = table.Column<int>(type: "INTEGER", nullable: false),
                    Blanks = table.Column<int>(type: "INTEGER", nullable: false),
                    Minutes = table.Column<int>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Helper = table.Column<string>(type: "TEXT", nullable: true),
                    Pinned = table.Column<bool>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_planned_sittings", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "quotes",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    Request = table.Column<string>(type: "TEXT", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    ShipBy = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    Chance = table.Column<double>(type: "REAL", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    ValidUntilUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    FactsVersion = table.Column<long>(type: "INTEGER", nullable: false),
                    Reasons = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_quotes", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "refunds",
                columns: table => new
                {
                    Id = table.Column<string>(type: "TEXT", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    PaymentId = table.Column<string>(type: "TEXT", nullable: false),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Reason = table.Column<string>(type: "TEXT", nullable: false),
                    Note = table.Column<string>(type: "TEXT", nullable: true),
                    State = table.Column<string>(type: "TEXT", nullable: false),
                    StripeId = table.Column<string>(type: "TEXT", nullable: true),
                    AskedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    DoneUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                    Attempts = table.Column<int>(type: "INTEGER", nullable: false),
                    NextTryUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    LastError = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_refunds", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "shelf_moves",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    AtUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    CaneLot = table.Column<string>(type: "TEXT", nullable: false),
                    Change = table.Column<int>(type: "INTEGER", nullable: false),
                    Why = table.Column<string>(type: "TEXT", nullable: false),
                    BatchId = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_shelf_moves", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "shop",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false),
                    Name = table.Column<string>(type: "TEXT", nullable: false),
                    Zone = table.Column<string>(type: "TEXT", nullable: false),
                    Currency = table.Column<string>(type: "TEXT", nullable: false),
                    OwnerEmail = table.Column<string>(type: "TEXT", nullable: false),
                    Hours = table.Column<string>(type: "TEXT", nullable: false),
                    OtherDays = table.Column<string>(type: "TEXT", nullable: false),
                    Helpers = table.Column<string>(type: "TEXT", nullable: false),
                    ShipDays = table.Column<string>(type: "TEXT", nullable: false),
                    RackBlanks = table.Column<int>(type: "INTEGER", nullable: false),
                    RackCharge = table.Column<string>(type: "TEXT", nullable: false),
                    MostBlanksPerBatch = table.Column<int>(type: "INTEGER", nullable: false),
                    Confidence = table.Column<double>(type: "REAL", nullable: false),
                    DampNightChance = table.Column<double>(type: "REAL", nullable: false),
                    LostEveningChance = table.Column<double>(type: "REAL", nullable: false),
                    WatchBelow = table.Column<double>(type: "REAL", nullable: false),
                    ClipChance = table.Column<double>(type: "REAL", nullable: false),
                    ReminderAt = table.Column<TimeOnly>(type: "TEXT", nullable: false),
                    Selling = table.Column<bool>(type: "INTEGER", nullable: false),
                    LengthUnit = table.Column<string>(type: "TEXT", nullable: false),
                    YieldHalfLifeDays = table.Column<int>(type: "INTEGER", nullable: false),
                    BeforeMarker = table.Column<double>(type: "REAL", nullable: false),
                    GradeSteps = table.Column<string>(type: "TEXT", nullable: false),
                    Costs = table.Column<string>(type: "TEXT", nullable: false),
                    Payment = table.Column<string>(type: "TEXT", nullable: false),
                    Shipping = table.Column<string>(type: "TEXT", nullable: false),
                    ShelfService = table.Column<double>(type: "REAL", nullable: false),
                    Version = table.Column<int>(type: "INTEGER", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_shop", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "step_records",
                columns: table => new
                {
                    Id = table.Column<long>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    BatchId = table.Column<string>(type: "TEXT", nullable: false),
                    Root = table.Column<string>(type: "TEXT", nullable: false),
                    Step = table.Column<int>(type: "INTEGER", nullable: false),
                    Day = table.Column<DateOnly>(type: "TEXT", nullable: false),
                    EndedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    In = table.Column<int>(type: "INTEGER", nullable: false),
                    Passed = table.Column<int>(type: "INTEGER", nullable: false),
                    Redo = table.Column<int>(type: "INTEGER", nullable: false),
                    Carried = table.Column<int>(type: "INTEGER", nullable: false),
                    Rejected = table.Column<string>(type: "TEXT", nullable: false),
                    Minutes = table.Column<int>(type: "INTEGER", nullable: true),
                    Measured = table.Column<string>(type: "TEXT", nullable: false),
                    UsualMinutes = table.Column<int>(type: "INTEGER", nullable: false),
                    SentAgain = table.Column<bool>(type: "INTEGER", nullable: false),
                    Helper = table.Column<string>(type: "TEXT", nullable: true),
                    Trays = table.Column<string>(type: "TEXT", nullable: false),
                    RedoOf = table.Column<int>(type: "INTEGER", nullable: true),
                    Before = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_step_records", x => x.Id);
                }
            );

            migrationBuilder.CreateTable(
                name: "vouchers",
                columns: table => new
                {
                    Code = table.Column<string>(type: "TEXT", nullable: false),
                    Share = table.Column<double>(type: "REAL", nullable: true),
                    AmountMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    LastDay = table.Column<DateOnly>(type: "TEXT", nullable: true),
                    MostUses = table.Column<int>(type: "INTEGER", nullable: true),
                    LeastReedsMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    MadeUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    EndedUtc = table.Column<DateTime>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_vouchers", x => x.Code);
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserClaims",
                columns: table => new
                {
                    Id = table.Column<int>(type: "INTEGER", nullable: false).Annotation("Sqlite:Autoincrement", true),
                    UserId = table.Column<string>(type: "TEXT", nullable: false),
                    ClaimType = table.Column<string>(type: "TEXT", nullable: true),
                    ClaimValue = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserClaims", x => x.Id);
                    table.ForeignKey(
                        name: "FK_AspNetUserClaims_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserLogins",
                columns: table => new
                {
                    LoginProvider = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    ProviderKey = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    ProviderDisplayName = table.Column<string>(type: "TEXT", nullable: true),
                    UserId = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserLogins", x => new { x.LoginProvider, x.ProviderKey });
                    table.ForeignKey(
                        name: "FK_AspNetUserLogins_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserPasskeys",
                columns: table => new
                {
                    CredentialId = table.Column<byte[]>(type: "BLOB", maxLength: 1024, nullable: false),
                    UserId = table.Column<string>(type: "TEXT", nullable: false),
                    Data = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_AspNetUserPasskeys", x => x.CredentialId);
                    table.ForeignKey(
                        name: "FK_AspNetUserPasskeys_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "AspNetUserTokens",
                columns: table => new
                {
                    UserId = table.Column<string>(type: "TEXT", nullable: false),
                    LoginProvider = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    Name = table.Column<string>(type: "TEXT", maxLength: 128, nullable: false),
                    Value = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey(
                        "PK_AspNetUserTokens",
                        x => new
                        {
                            x.UserId,
                            x.LoginProvider,
                            x.Name,
                        }
                    );
                    table.ForeignKey(
                        name: "FK_AspNetUserTokens_AspNetUsers_UserId",
                        column: x => x.UserId,
                        principalTable: "AspNetUsers",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "exchanges",
                columns: table => new
                {
                    Number = table.Column<int>(type: "INTEGER", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Strength = table.Column<int>(type: "INTEGER", nullable: false),
                    To = table.Column<int>(type: "INTEGER", nullable: false),
                    Quantity = table.Column<int>(type: "INTEGER", nullable: false),
                    AskedUtc = table.Column<DateTime>(type: "TEXT", nullable: false),
                    Stage = table.Column<string>(type: "TEXT", nullable: false),
                    Answer = table.Column<string>(type: "TEXT", nullable: true),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_exchanges", x => new { x.OrderId, x.Number });
                    table.ForeignKey(
                        name: "FK_exchanges_orders_OrderId",
                        column: x => x.OrderId,
                        principalTable: "orders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.CreateTable(
                name: "order_lines",
                columns: table => new
                {
                    Position = table.Column<int>(type: "INTEGER", nullable: false),
                    OrderId = table.Column<string>(type: "TEXT", nullable: false),
                    Model = table.Column<string>(type: "TEXT", nullable: false),
                    Strength = table.Column<int>(type: "INTEGER", nullable: false),
                    Quantity = table.Column<int>(type: "INTEGER", nullable: false),
                    UnitPriceMinor = table.Column<long>(type: "INTEGER", nullable: false),
                    Also = table.Column<string>(type: "TEXT", nullable: false),
                    Asked = table.Column<int>(type: "INTEGER", nullable: true),
                    Declined = table.Column<string>(type: "TEXT", nullable: false),
                },
                constraints: table =>
                {
                    table.PrimaryKey("PK_order_lines", x => new { x.OrderId, x.Position });
                    table.ForeignKey(
                        name: "FK_order_lines_orders_OrderId",
                        column: x => x.OrderId,
                        principalTable: "orders",
                        principalColumn: "Id",
                        onDelete: ReferentialAction.Cascade
                    );
                }
            );

            migrationBuilder.InsertData(
                table: "facts",
                columns: new[] { "Id", "Version" },
                values: new object[] { 1, 0L }
            );

            migrationBuilder.InsertData(
                table: "paper_numbers",
                columns: new[] { "Kind", "Last" },
                values: new object[,]
                {
                    { "CreditNote", 0 },
                    { "Invoice", 0 },
                }
            );

            migrationBuilder.InsertData(
                table: "plan_key",
                columns: new[] { "Id", "Day", "FactsVersion" },
                values: new object[] { 1, new DateOnly(1, 1, 1), 0L }
            );

            migrationBuilder.CreateIndex(
                name: "IX_answers_Caller_Path_Key",
                table: "answers",
                columns: new[] { "Caller", "Path", "Key" },
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_answers_StoredUtc", table: "answers", column: "StoredUtc");

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserClaims_UserId",
                table: "AspNetUserClaims",
                column: "UserId"
            );

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserLogins_UserId",
                table: "AspNetUserLogins",
                column: "UserId"
            );

            migrationBuilder.CreateIndex(
                name: "IX_AspNetUserPasskeys_UserId",
                table: "AspNetUserPasskeys",
                column: "UserId"
            );

            migrationBuilder.CreateIndex(name: "EmailIndex", table: "AspNetUsers", column: "NormalizedEmail");

            migrationBuilder.CreateIndex(
                name: "UserNameIndex",
                table: "AspNetUsers",
                column: "NormalizedUserName",
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_batches_Number", table: "batches", column: "Number", unique: true);

            migrationBuilder.CreateIndex(name: "IX_batches_Root", table: "batches", column: "Root");

            migrationBuilder.CreateIndex(name: "IX_batches_Stage", table: "batches", column: "Stage");

            migrationBuilder.CreateIndex(
                name: "IX_calendar_entries_LastDay",
                table: "calendar_entries",
                column: "LastDay"
            );

            migrationBuilder.CreateIndex(name: "IX_calendar_entries_Stage", table: "calendar_entries", column: "Stage");

            migrationBuilder.CreateIndex(
                name: "IX_calendar_entries_Subject",
                table: "calendar_entries",
                column: "Subject"
            );

            migrationBuilder.CreateIndex(name: "IX_disputes_OrderId", table: "disputes", column: "OrderId");

            migrationBuilder.CreateIndex(name: "IX_exchanges_Stage", table: "exchanges", column: "Stage");

            migrationBuilder.CreateIndex(name: "IX_grade_records_BatchId", table: "grade_records", column: "BatchId");

            migrationBuilder.CreateIndex(
                name: "IX_inbox_Source_EventId",
                table: "inbox",
                columns: new[] { "Source", "EventId" },
                unique: true
            );

            migrationBuilder.CreateIndex(
                name: "IX_inbox_WorkedUtc_NextTryUtc",
                table: "inbox",
                columns: new[] { "WorkedUtc", "NextTryUtc" }
            );

            migrationBuilder.CreateIndex(name: "IX_journal_Subject", table: "journal", column: "Subject");

            migrationBuilder.CreateIndex(name: "IX_orders_Number", table: "orders", column: "Number", unique: true);

            migrationBuilder.CreateIndex(name: "IX_orders_QuoteId", table: "orders", column: "QuoteId", unique: true);

            migrationBuilder.CreateIndex(name: "IX_orders_Stage", table: "orders", column: "Stage");

            migrationBuilder.CreateIndex(name: "IX_orders_Voucher", table: "orders", column: "Voucher");

            migrationBuilder.CreateIndex(
                name: "IX_outbox_Kind_Subject",
                table: "outbox",
                columns: new[] { "Kind", "Subject" },
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_outbox_SentUtc", table: "outbox", column: "SentUtc");

            migrationBuilder.CreateIndex(
                name: "IX_papers_Kind_Number",
                table: "papers",
                columns: new[] { "Kind", "Number" },
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_papers_OrderId", table: "papers", column: "OrderId");

            migrationBuilder.CreateIndex(name: "IX_pay_sessions_OrderId", table: "pay_sessions", column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_pay_sessions_State_AskNextUtc",
                table: "pay_sessions",
                columns: new[] { "State", "AskNextUtc" }
            );

            migrationBuilder.CreateIndex(name: "IX_payments_OrderId", table: "payments", column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_payments_StripeId",
                table: "payments",
                column: "StripeId",
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_pegs_BatchRoot", table: "pegs", column: "BatchRoot");

            migrationBuilder.CreateIndex(name: "IX_pegs_OrderId", table: "pegs", column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_planned_sittings_BatchId",
                table: "planned_sittings",
                column: "BatchId"
            );

            migrationBuilder.CreateIndex(name: "IX_planned_sittings_Day", table: "planned_sittings", column: "Day");

            migrationBuilder.CreateIndex(name: "IX_quotes_ValidUntilUtc", table: "quotes", column: "ValidUntilUtc");

            migrationBuilder.CreateIndex(name: "IX_refunds_OrderId", table: "refunds", column: "OrderId");

            migrationBuilder.CreateIndex(
                name: "IX_refunds_State_NextTryUtc",
                table: "refunds",
                columns: new[] { "State", "NextTryUtc" }
            );

            migrationBuilder.CreateIndex(
                name: "IX_refunds_StripeId",
                table: "refunds",
                column: "StripeId",
                unique: true
            );

            migrationBuilder.CreateIndex(
                name: "IX_step_records_BatchId_Step",
                table: "step_records",
                columns: new[] { "BatchId", "Step" },
                unique: true
            );

            migrationBuilder.CreateIndex(name: "IX_step_records_Day", table: "step_records", column: "Day");
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(name: "answers");

            migrationBuilder.DropTable(name: "AspNetUserClaims");

            migrationBuilder.DropTable(name: "AspNetUserLogins");

            migrationBuilder.DropTable(name: "AspNetUserPasskeys");

            migrationBuilder.DropTable(name: "AspNetUserTokens");

            migrationBuilder.DropTable(name: "batches");

            migrationBuilder.DropTable(name: "calendar_entries");

            migrationBuilder.DropTable(name: "calendar_link");

            migrationBuilder.DropTable(name: "cane_lots");

            migrationBuilder.DropTable(name: "damp_nights");

            migrationBuilder.DropTable(name: "DataProtectionKeys");

            migrationBuilder.DropTable(name: "disputes");

            migrationBuilder.DropTable(name: "drawer_moves");

            migrationBuilder.DropTable(name: "exchanges");

            migrationBuilder.DropTable(name: "facts");

            migrationBuilder.DropTable(name: "grade_records");

            migrationBuilder.DropTable(name: "inbox");

            migrationBuilder.DropTable(name: "journal");

            migrationBuilder.DropTable(name: "letter_settings");

            migrationBuilder.DropTable(name: "markers");

            migrationBuilder.DropTable(name: "models");

            migrationBuilder.DropTable(name: "order_lines");

            migrationBuilder.DropTable(name: "outbox");

            migrationBuilder.DropTable(name: "outlooks");

            migrationBuilder.DropTable(name: "paper_numbers");

            migrationBuilder.DropTable(name: "papers");

            migrationBuilder.DropTable(name: "past_evenings");

            migrationBuilder.DropTable(name: "past_grades");

            migrationBuilder.DropTable(name: "past_steps");

            migrationBuilder.DropTable(name: "pay_sessions");

            migrationBuilder.DropTable(name: "payments");

            migrationBuilder.DropTable(name: "pegs");

            migrationBuilder.DropTable(name: "plan_key");

            migrationBuilder.DropTable(name: "planned_sittings");

            migrationBuilder.DropTable(name: "quotes");

            migrationBuilder.DropTable(name: "refunds");

            migrationBuilder.DropTable(name: "shelf_moves");

            migrationBuilder.DropTable(name: "shop");

            migrationBuilder.DropTable(name: "step_records");

            migrationBuilder.DropTable(name: "vouchers");

            migrationBuilder.DropTable(name: "AspNetUsers");

            migrationBuilder.DropTable(name: "orders");
        }
    }
}
