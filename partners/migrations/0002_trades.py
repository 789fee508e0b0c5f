import django.core.validators
import django.db.models.deletion
import django.utils.timezone
import partners.ground.wall
from django.conf import settings
from django.db import migrations, models


class Migration(migrations.Migration):

    dependencies = [
        ('partners', '0001_initial'),
    ]

    operations = [
        migrations.AlterField(
            model_name='approval',
            name='what_for',
            field=models.CharField(choices=[('asking', 'asking in the community'), ('letters_home', 'letters home'), ('helpers', 'helpers in the building'), ('displays', 'displays outside school'), ('trades', 'trades for student-decorated items')], default='asking', max_length=12, verbose_name='what for'),
        ),
        migrations.CreateModel(
            name='LostLesson',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('school', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school')),
                ('school_class', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.schoolclass', verbose_name='class')),
                ('grade', models.SmallIntegerField(blank=True, null=True, validators=[django.core.validators.MinValueValidator(-1), django.core.validators.MaxValueValidator(12)], verbose_name='grade')),
                ('first', models.DateField(verbose_name='first day')),
                ('last', models.DateField(verbose_name='last day')),
                ('title', models.CharField(blank=True, help_text='For example: state testing.', max_length=80, verbose_name='what it is')),
            ],
            options={
                'verbose_name': 'lost lessons',
                'verbose_name_plural': 'lost lessons',
                'ordering': ['first', 'id'],
                'default_related_name': 'lost_lessons',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='lostlesson_in_program'), partners.ground.wall.SameProgram(field='school', name='lostlesson_school_wall'), partners.ground.wall.SameProgram(field='school_class', name='lostlesson_school_class_wall'), models.CheckConstraint(condition=models.Q(('last__gte', models.F('first'))), name='lostlesson_in_order', violation_error_message='The last day lies before the first.')],
            },
        ),
        migrations.CreateModel(
            name='Trade',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('partner', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.partner', verbose_name='with')),
                ('school', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.school', verbose_name='school')),
                ('project', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.project', verbose_name='project')),
                ('visit', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.visit', verbose_name='agreed at')),
                ('approval', models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.approval', verbose_name='approved by')),
                ('agreed_on', models.DateField(verbose_name='agreed on')),
                ('what', models.CharField(help_text='For example: decorated paper bags.', max_length=120, verbose_name='what we make')),
                ('size', models.CharField(blank=True, max_length=80, verbose_name='size')),
                ('materials', models.CharField(blank=True, max_length=160, verbose_name='materials')),
                ('spare_percent', models.PositiveSmallIntegerField(default=10, validators=[django.core.validators.MaxValueValidator(100)], verbose_name='spare plain items (%)')),
                ('minutes_per_item', models.PositiveSmallIntegerField(default=20, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(600)], verbose_name='minutes for one item')),
                ('finishing_days', models.PositiveSmallIntegerField(default=2, validators=[django.core.validators.MaxValueValidator(60)], verbose_name='school days for drying and packing')),
                ('lesson_limit', models.PositiveSmallIntegerField(blank=True, null=True, verbose_name='at most this many lessons per class and year')),
                ('minimum', models.PositiveSmallIntegerField(default=0, verbose_name='at least this many per class')),
                ('names_on_work', models.CharField(blank=True, help_text="For example: school and grade. Never a child's last name.", max_length=160, verbose_name='written on the work')),
                ('display_from', models.DateField(blank=True, null=True, verbose_name='on show from')),
                ('shown_on', models.DateField(blank=True, null=True, verbose_name='put on show on')),
                ('display_until', models.DateField(blank=True, null=True, verbose_name='taken down by')),
                ('taken_down_on', models.DateField(blank=True, null=True, verbose_name='taken down on')),
                ('afterwards', models.CharField(blank=True, max_length=160, verbose_name='what happens to the work afterwards')),
                ('if_late', models.CharField(blank=True, max_length=200, verbose_name='if something is late')),
                ('papers_due', models.DateField(blank=True, null=True, verbose_name='approval and memo by')),
                ('approval_settled', models.BooleanField(default=False, verbose_name='approved, or no approval needed')),
                ('memo_signed_on', models.DateField(blank=True, null=True, verbose_name='memo signed on')),
                ('called_off_on', models.DateField(blank=True, null=True, verbose_name='called off on')),
                ('note', models.TextField(blank=True, help_text='Write what the owner may read; records can be requested.', verbose_name='note')),
            ],
            options={
                'verbose_name': 'trade',
                'verbose_name_plural': 'trades',
                'ordering': ['-agreed_on', '-id'],
                'default_related_name': 'trades',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='trade_in_program'), partners.ground.wall.SameProgram(field='partner', name='trade_partner_wall'), partners.ground.wall.SameProgram(field='school', name='trade_school_wall'), partners.ground.wall.SameProgram(field='project', name='trade_project_wall'), partners.ground.wall.SameProgram(field='visit', name='trade_visit_wall'), partners.ground.wall.SameProgram(field='approval', name='trade_approval_wall'), models.CheckConstraint(condition=models.Q(('display_until', None), ('display_from', None), ('display_until__gte', models.F('display_from')), _connector='OR'), name='trade_display_in_order', violation_error_message='It is taken down before it is put up.')],
                'indexes': [models.Index(fields=['program', '-agreed_on', '-id'], name='trade_latest'), models.Index(fields=['program', 'partner', '-agreed_on', '-id'], name='trade_partner'), models.Index(condition=models.Q(('approval_settled', False), ('called_off_on__isnull', True), ('papers_due__isnull', False)), fields=['program', 'papers_due', 'id'], name='trade_approval_due'), models.Index(condition=models.Q(('called_off_on__isnull', True), ('memo_signed_on__isnull', True), ('papers_due__isnull', False)), fields=['program', 'papers_due', 'id'], name='trade_memo_due'), models.Index(condition=models.Q(('called_off_on__isnull', True), ('display_from__isnull', False), ('shown_on__isnull', True)), fields=['program', 'display_from', 'id'], name='trade_to_show'), models.Index(condition=models.Q(('called_off_on__isnull', True), ('display_until__isnull', False), ('taken_down_on__isnull', True)), fields=['program', 'display_until', 'id'], name='trade_to_take_down')],
            },
        ),
        migrations.CreateModel(
            name='TradeClass',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('trade', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='classes', to='partners.trade')),
                ('school_class', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, to='partners.schoolclass', verbose_name='class')),
                ('not_taking_part', models.PositiveSmallIntegerField(default=0, verbose_name='children not taking part')),
                ('share', models.PositiveIntegerField(default=0, verbose_name='items')),
                ('by_hand', models.BooleanField(default=False, verbose_name='number set by hand')),
                ('lessons', models.PositiveSmallIntegerField(default=0, verbose_name='lessons needed')),
                ('start_on', models.DateField(blank=True, null=True, verbose_name='start by')),
                ('started_on', models.DateField(blank=True, null=True, verbose_name='started on')),
                ('done', models.PositiveIntegerField(default=0, verbose_name='done')),
                ('spoiled', models.PositiveIntegerField(default=0, verbose_name='spoiled')),
            ],
            options={
                'verbose_name': 'class in a trade',
                'verbose_name_plural': 'classes in a trade',
                'ordering': ['school_class__school', 'school_class__grade', 'school_class__label'],
                'default_related_name': 'trade_classes',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='tradeclass_in_program'), partners.ground.wall.SameProgram(field='trade', name='tradeclass_trade_wall'), partners.ground.wall.SameProgram(field='school_class', name='tradeclass_school_class_wall'), models.UniqueConstraint(fields=('program', 'trade', 'school_class'), name='tradeclass_once', violation_error_message='That class takes part already.')],
                'indexes': [models.Index(condition=models.Q(('start_on__isnull', False), ('started_on__isnull', True)), fields=['program', 'start_on', 'id'], name='tradeclass_to_start')],
            },
        ),
        migrations.CreateModel(
            name='TradeTally',
            fields=[
                ('id', models.BigAutoField(auto_created=True, primary_key=True, serialize=False, verbose_name='ID')),
                ('program', models.ForeignKey(db_index=False, editable=False, on_delete=django.db.models.deletion.PROTECT, to='partners.program')),
                ('created_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('created_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('updated_at', models.DateTimeField(default=django.utils.timezone.now, editable=False)),
                ('updated_by', models.ForeignKey(db_index=False, editable=False, null=True, on_delete=django.db.models.deletion.PROTECT, related_name='+', to=settings.AUTH_USER_MODEL)),
                ('version', models.PositiveIntegerField(default=1, editable=False)),
                ('trade_class', models.ForeignKey(on_delete=django.db.models.deletion.PROTECT, related_name='tallies', to='partners.tradeclass')),
                ('day', models.DateField(verbose_name='day')),
                ('done', models.PositiveIntegerField(default=0, verbose_name='done')),
                ('spoiled', models.PositiveIntegerField(default=0, verbose_name='spoiled')),
            ],
            options={
                'verbose_name': 'count of a class',
                'ordering': ['day', 'id'],
                'default_related_name': 'trade_tallies',
                'constraints': [models.UniqueConstraint(fields=('program', 'id'), name='tradetally_in_program'), partners.ground.wall.SameProgram(field='trade_class', name='tradetally_trade_class_wall')],
                'indexes': [models.Index(fields=['program', 'day'], name='tradetally_day')],
            },
        ),
        migrations.AddField(
            model_name='promise',
            name='carrier',
            field=models.CharField(blank=True, max_length=80, verbose_name='who carries it'),
        ),
        migrations.AddField(
            model_name='promise',
            name='part',
            field=models.CharField(blank=True, choices=[('', 'no trade'), ('make', 'what we make'), ('plain', 'plain items'), ('give', 'what they give')], max_length=5, verbose_name='in a trade'),
        ),
        migrations.AddField(
            model_name='schoolclass',
            name='meets_on',
            field=models.JSONField(blank=True, default=list, help_text="Weekdays (0 is Monday), or days of the school's cycle.", verbose_name='has art on'),
        ),
        migrations.AddField(
            model_name='schoolclass',
            name='minutes',
            field=models.PositiveSmallIntegerField(blank=True, null=True, validators=[django.core.validators.MinValueValidator(1), django.core.validators.MaxValueValidator(600)], verbose_name='minutes of a lesson'),
        ),
        migrations.AddField(
            model_name='letter',
            name='trade',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.trade'),
        ),
        migrations.AddField(
            model_name='promise',
            name='trade',
            field=models.ForeignKey(blank=True, null=True, on_delete=django.db.models.deletion.PROTECT, to='partners.trade', verbose_name='part of the trade'),
        ),
        migrations.AddIndex(
            model_name='promise',
            index=models.Index(condition=models.Q(('trade__isnull', False)), fields=['program', 'trade'], name='promise_trade'),
        ),
        migrations.AddIndex(
            model_name='promise',
            index=models.Index(condition=models.Q(('settled_on__isnull', True), ('trade__isnull', False)), fields=['program', 'part', 'due', 'id'], name='promise_part_due'),
        ),
        migrations.AddConstraint(
            model_name='letter',
            constraint=partners.ground.wall.SameProgram(field='trade', name='letter_trade_wall'),
        ),
        migrations.AddConstraint(
            model_name='promise',
            constraint=partners.ground.wall.SameProgram(field='trade', name='promise_trade_wall'),
        ),
        migrations.AddConstraint(
            model_name='promise',
            constraint=models.CheckConstraint(condition=models.Q(models.Q(('part', ''), ('trade', None)), models.Q(('trade__isnull', False), models.Q(('part', ''), _negated=True)), _connector='OR'), name='promise_trade_has_part'),
        ),
        migrations.AddConstraint(
            model_name='promise',
            constraint=models.UniqueConstraint(condition=models.Q(('part__in', ['make', 'plain'])), fields=('trade', 'part'), name='promise_part_once'),
        ),
        migrations.AddIndex(
            model_name='delivery',
            index=models.Index(fields=['program', 'promise'], name='delivery_promise'),
        ),
    ]
